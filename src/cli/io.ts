/** Where a command's words go. Commands hand over whole texts; nothing else writes to the terminal. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

/** JSON for another program: two spaces of indent, a newline at the end. */
export const asJson = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
