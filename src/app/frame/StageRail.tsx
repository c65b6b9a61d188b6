import { goTo } from '../state/actions.ts';
import { stages, useApp, type Stage } from '../state/store.ts';

const WORDS: Readonly<Record<Stage, readonly [string, string]>> = {
  brief: ['Brief', 'what it must do'],
  makeup: ['Make-up', 'motor, cells, mass'],
  craft: ['Craft', 'control, wind, battery'],
  fan: ['Fan', 'blade and duct'],
  sound: ['Sound', 'levels, tones, recordings'],
  print: ['Print', 'parts and files'],
  balance: ['Balance', 'blades and trial runs'],
  bench: ['Bench', 'what it really does'],
};

/** The stages in the order of the work. */
export function StageRail() {
  const stage = useApp((s) => s.stage);
  return (
    <nav className="rail" aria-label="Stages">
      {stages.map((one) => (
        <button key={one} aria-current={one === stage ? 'page' : undefined} onClick={() => goTo(one)}>
          {WORDS[one][0]}
          <small>{WORDS[one][1]}</small>
        </button>
      ))}
    </nav>
  );
}
