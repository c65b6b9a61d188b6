import { useApp, type Theme } from './store.ts';

const KEY = 'fanwright.theme';

function show(theme: Theme): void {
  if (theme === 'system') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
  useApp.setState({ theme });
}

/** Storage may be closed to us; the theme then lasts as long as the page. */
export function setTheme(theme: Theme): void {
  show(theme);
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    return;
  }
}

export function restoreTheme(): void {
  try {
    const kept = localStorage.getItem(KEY);
    if (kept === 'light' || kept === 'dark') show(kept);
  } catch {
    return;
  }
}
