import { useEffect, useRef } from 'react';
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
  builds: ['Builds', 'predicted, measured'],
};

/** The stages in the order of the work. */
export function StageRail() {
  const stage = useApp((s) => s.stage);
  const rail = useRef<HTMLElement>(null);
  // On a phone the row slides; the stage in hand stays in sight, the page itself where it is.
  useEffect(() => {
    const row = rail.current;
    const here = row?.querySelector<HTMLElement>('[aria-current]');
    if (row && here) row.scrollLeft = here.offsetLeft - (row.clientWidth - here.clientWidth) / 2;
  }, [stage]);
  return (
    <nav ref={rail} className="rail" aria-label="Stages">
      {stages.map((one) => (
        <button key={one} aria-current={one === stage ? 'page' : undefined} onClick={() => goTo(one)}>
          {WORDS[one][0]}
          <small>{WORDS[one][1]}</small>
        </button>
      ))}
    </nav>
  );
}
