import { useCallback, useRef, useState, type KeyboardEvent } from 'react';
import { formatNumber } from '../../quantities/format.ts';
import { designOf } from '../../project/builds.ts';
import { geometryFaults } from '../../shape/faults.ts';
import { fanLayout } from '../../shape/layout.ts';
import { useApp } from '../state/store.ts';
import { latestOnly } from '../worker/latest.ts';
import type { FanScene } from './scene.ts';
import type { ShownPart, SolidsWorker } from './solids.ts';
import { askSolids } from './solidsClient.ts';

const WAITING = 'The solid is being built.';
const NO_WEBGL = 'This browser shows no 3-D (WebGL is off). Drawing, numbers and files work without it.';
const LOST = 'The graphics card let go of the picture; it comes back as soon as the card does.';
/** While a dimension is dragged, solids are drawn for at most one part in this of the time. */
const RESPITE = 8;

const CANNOT = 'No solid while the fan cannot be built as drawn; the sentences below say why.';
const FAILED = 'The solid could not be built this time. Drawing and numbers are not affected.';

/** The fan as a solid, half of its duct cut away. Built in a worker; the newest design wins. */
export function SolidView() {
  const scene = useRef<FanScene | null>(null);
  const [note, setNote] = useState(WAITING);
  const [hidden, setHidden] = useState(false);

  const mount = useCallback((canvas: HTMLCanvasElement | null) => {
    if (!canvas) return undefined;
    let gone = false;
    let stop = () => {};
    void start(canvas, setNote, setHidden).then((started) => {
      if (gone) started?.stop();
      else if (started) {
        scene.current = started.scene;
        stop = started.stop;
      }
    });
    return () => {
      gone = true;
      scene.current = null;
      stop();
    };
  }, []);

  const onKey = (event: KeyboardEvent) => {
    const turn = { ArrowLeft: [-0.15, 0], ArrowRight: [0.15, 0], ArrowUp: [0, 0.15], ArrowDown: [0, -0.15] }[
      event.key
    ];
    if (!turn) return;
    event.preventDefault();
    scene.current?.turn(turn[0], turn[1]);
  };
  return (
    <div className="solid">
      <canvas
        ref={mount}
        tabIndex={0}
        role="application"
        aria-label="The fan as a solid; drag or use the arrow keys to turn it"
        className={hidden ? 'hidden' : undefined}
        onKeyDown={onKey}
      />
      <p className="solid-note" role="status">
        {note}
      </p>
    </div>
  );
}

type Say = (text: string) => void;

async function start(canvas: HTMLCanvasElement, say: Say, hide: (hidden: boolean) => void) {
  if (!hasWebgl()) {
    hide(true);
    say(NO_WEBGL);
    return null;
  }
  const { createScene } = await import('./scene.ts');
  let scene: FanScene;
  let story = WAITING;
  const tell = (text: string) => say((story = text));
  try {
    scene = createScene(canvas, (lost) => say(lost ? LOST : story));
  } catch {
    hide(true);
    say(NO_WEBGL);
    return null;
  }
  const ask = latestOnly(
    ({ project, dragging }: Request): ReturnType<SolidsWorker['shown']> =>
      askSolids((worker) => worker.shown(designOf(project), dragging ? 'coarse' : 'fine')),
    (answer, { project }) => {
      hide(!answer.ok);
      if (!answer.ok) return tell(geometryFaults(project.fan, project.motor).length ? CANNOT : FAILED);
      scene.show(answer.parts, fanLayout(project.fan, project.motor));
      canvas.dataset.triangles = String(triangles(answer.parts));
      tell(storyOf(answer.parts));
    },
    () => tell(FAILED),
  );
  let asked = 0;
  let later: ReturnType<typeof setTimeout> | undefined;
  const request = () => {
    const { project, dragging } = useApp.getState();
    clearTimeout(later);
    // Drawing a solid may hold up the page where the processor does the graphics; the numbers of a drag come first.
    const wait = dragging === null ? 0 : asked + RESPITE * scene.held() - performance.now();
    if (wait > 0) {
      later = setTimeout(request, wait);
      return;
    }
    asked = performance.now();
    ask({ project, dragging: dragging !== null });
  };
  request();
  const leaveStore = useApp.subscribe((now, before) => {
    if (now.project !== before.project || now.dragging !== before.dragging) request();
    if (now.theme !== before.theme) requestAnimationFrame(() => scene.recolour());
  });
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const recolour = () => scene.recolour();
  dark.addEventListener('change', recolour);
  return {
    scene,
    stop: () => {
      clearTimeout(later);
      leaveStore();
      dark.removeEventListener('change', recolour);
      scene.dispose();
    },
  };
}

interface Request {
  readonly project: ReturnType<typeof useApp.getState>['project'];
  readonly dragging: boolean;
}

const triangles = (parts: readonly ShownPart[]) =>
  parts.reduce((sum, p) => sum + (p.placements.length * p.indices.length) / 3, 0);

function storyOf(parts: readonly ShownPart[]): string {
  const volumes = parts.map(({ name, placements, volume_m3 }) => {
    const count = placements.length > 1 ? `${placements.length} × ` : '';
    return `${count}${name} ${formatNumber(volume_m3 * 1e6)} cm³`;
  });
  const list = volumes.join(', ');
  return `${list[0].toUpperCase()}${list.slice(1)}; ${formatNumber(triangles(parts))} triangles. Drag to turn.`;
}

function hasWebgl(): boolean {
  try {
    return document.createElement('canvas').getContext('webgl2') !== null;
  } catch {
    return false;
  }
}
