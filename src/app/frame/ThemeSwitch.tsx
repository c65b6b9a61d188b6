import { setTheme } from '../state/theme.ts';
import { useApp, type Theme } from '../state/store.ts';

/** Light, dark, or as the system has it. */
export function ThemeSwitch() {
  const theme = useApp((s) => s.theme);
  return (
    <select
      aria-label="Colours"
      className="theme"
      value={theme}
      onChange={(e) => setTheme(e.target.value as Theme)}
    >
      <option value="system">As system</option>
      <option value="light">Light</option>
      <option value="dark">Dark</option>
    </select>
  );
}
