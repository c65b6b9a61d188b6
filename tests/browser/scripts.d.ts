declare module '*/scripts/page.mjs' {
  export const pageFolder: string;
  export function buildPage(): Promise<boolean>;
}
declare module '*/scripts/server.mjs' {
  export function serve(
    root: string,
    port: number,
  ): Promise<{ readonly address: string; close(): Promise<void> }>;
}
declare module '*/scripts/chromium.mjs' {
  export const HOW_TO_GET_CHROMIUM: string;
  export function findChromium(): string | undefined;
}
