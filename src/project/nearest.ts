/**
 * Of `known`, the word a person most likely meant by `word`, or null when none is close: same but for case, unit
 * ending or a few letters. Distance is that of Damerau and Levenshtein (insert, delete, change, swap neighbours).
 */
export function nearest(word: string, known: readonly string[]): string | null {
  if (word.length > 200) return null;
  const wanted = word.toLowerCase();
  const stem = withoutUnit(wanted);
  let best: string | null = null;
  let bestDistance = Infinity;
  for (const candidate of known) {
    const other = candidate.toLowerCase();
    const distance =
      other === wanted
        ? 0
        : withoutUnit(other) === stem
          ? 0.5
          : Math.min(editDistance(wanted, other), 0.5 + editDistance(stem, withoutUnit(other)));
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best !== null && bestDistance <= Math.max(1, Math.floor(wanted.length / 4)) ? best : null;
}

const withoutUnit = (key: string): string => key.replace(/_[a-z0-9]+$/, '');

function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      next[j] = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        next[j] = Math.min(next[j], before[j - 2] + 1);
    }
    before = row;
    row = next;
  }
  return row[b.length];
}
