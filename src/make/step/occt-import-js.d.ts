declare module 'occt-import-js' {
  /** The reader used to check what is written; it ships no types of its own. */
  export default function occtImport(): Promise<{
    ReadStepFile(bytes: Uint8Array, options: Record<string, unknown> | null): unknown;
  }>;
}
