/** Rows as columns: those in `left` flush left, the others flush right, two spaces between, no trailing blanks. */
export function columns(rows: readonly (readonly string[])[], left: readonly number[] = [0]): string {
  const widths: number[] = [];
  for (const row of rows) row.forEach((cell, i) => (widths[i] = Math.max(widths[i] ?? 0, cell.length)));
  const place = (cell: string, i: number) =>
    left.includes(i) ? cell.padEnd(widths[i]) : cell.padStart(widths[i]);
  return rows.map((row) => `  ${row.map(place).join('  ')}`.trimEnd() + '\n').join('');
}

/** A paragraph broken at spaces to `width`, continued under `indent`. */
export function wrap(text: string, indent = '', width = 96): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line && indent.length + line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line ? `${line} ${word}` : word;
  }
  lines.push(line);
  return lines.map((l) => indent + l).join('\n') + '\n';
}

/** A bullet whose later lines stand under its first word. */
export function bullet(text: string, mark = '- '): string {
  const body = wrap(text, ' '.repeat(mark.length + 2));
  return '  ' + mark + body.slice(mark.length + 2);
}
