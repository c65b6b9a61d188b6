import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { restoreWork, startAutosave } from './state/autosave.ts';
import { restoreTheme } from './state/theme.ts';
import './style/tokens.css';
import './style/base.css';
import './style/frame.css';
import './style/fields.css';
import './style/sheet.css';
import './style/charts.css';
import './style/margin.css';
import './style/start.css';
import './style/design.css';
import './style/craft.css';

restoreTheme();
await restoreWork();
startAutosave();
createRoot(document.getElementById('root') as HTMLElement).render(<App />);
