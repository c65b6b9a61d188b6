import { useEffect, useState, type KeyboardEvent } from 'react';
import { useApp } from '../state/store.ts';
import type { FanScene } from './scene.ts';
import type { ShownCraft } from './solids.ts';

const NO_WEBGL = 'This browser shows no 3-D (WebGL is off). The list below works without it.';
const LOST = 'The graphics card let go of the picture; it comes back as soon as the card does.';

/** The craft put together, in three dimensions; the dot is its centre of mass. */
export function CraftView({ craft, note }: { craft: ShownCraft | null; note: string }) {
  const [canvas, setCanvas] = useState<HTMLCanvasElement | null>(null);
  const [scene, setScene] = useState<FanScene | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    if (!canvas) return undefined;
    let made: FanScene | null = null;
    let gone = false;
    import('./scene.ts')
      .then(({ createScene }) => {
        if (gone) return;
        made = createScene(canvas, (lost) => setTrouble(lost ? LOST : null));
        setScene(made);
      })
      .catch(() => setTrouble(NO_WEBGL));
    const dark = matchMedia('(prefers-color-scheme: dark)');
    const recolour = () => requestAnimationFrame(() => made?.recolour());
    dark.addEventListener('change', recolour);
    const leave = useApp.subscribe((now, before) => {
      if (now.theme !== before.theme) recolour();
    });
    return () => {
      gone = true;
      dark.removeEventListener('change', recolour);
      leave();
      made?.dispose();
    };
  }, [canvas]);
  useEffect(() => {
    if (craft) scene?.showCraft(craft);
  }, [craft, scene]);
  const onKey = (event: KeyboardEvent) => {
    const turn = { ArrowLeft: [-0.15, 0], ArrowRight: [0.15, 0], ArrowUp: [0, 0.15], ArrowDown: [0, -0.15] }[
      event.key
    ];
    if (!turn) return;
    event.preventDefault();
    scene?.turn(turn[0], turn[1]);
  };
  return (
    <div className="solid craft-solid">
      <canvas
        ref={setCanvas}
        tabIndex={0}
        role="application"
        aria-label="The craft put together; drag or use the arrow keys to turn it"
        className={trouble === NO_WEBGL ? 'hidden' : undefined}
        onKeyDown={onKey}
      />
      <p className="solid-note" role="status">
        {trouble ?? note}
      </p>
      <p className="craft-solid-views">
        <button disabled={!scene} onClick={() => scene?.lookFrom('above')}>
          From above
        </button>
        <button disabled={!scene} onClick={() => scene?.lookFrom('askew')}>
          From the side
        </button>
      </p>
    </div>
  );
}
