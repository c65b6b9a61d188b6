import { useRef, type KeyboardEvent, type PointerEvent } from 'react';
import { describeField } from '../field/describe.ts';
import { beginDrag, drag, edit, endDrag } from '../state/actions.ts';
import type { Dimension } from './dimension.ts';
import type { Frame } from './frame.ts';

interface Props {
  readonly dimension: Dimension;
  readonly frame: Frame;
  readonly active: boolean;
  readonly onOpen: (dimension: Dimension) => void;
  /** A drag holds the drawing where it is until it ends. */
  readonly onDrag: (held: boolean) => void;
}

interface Hold {
  readonly dimension: Dimension;
  readonly x: number;
  readonly y: number;
  readonly release: () => void;
}

/** One dimension: its line, its number (focus, arrow keys, click to type) and its handle. */
export function DimensionMark({ dimension, frame, active, onOpen, onDrag }: Props) {
  const hold = useRef<Hold | null>(null);
  const { path, text, at, anchor, handle } = dimension;
  const long = text.length * 6.6 + 8;
  const left = anchor === 'middle' ? -long / 2 : anchor === 'end' ? -long + 3 : -3;
  const chip = at.upright
    ? { x: -9, y: -long / 2, width: 18, height: long }
    : { x: left, y: -10, width: long, height: 20 };

  const onKey = (event: KeyboardEvent) => {
    if (!path) return;
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      onOpen(dimension);
    }
    const way = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 }[event.key];
    if (!way) return;
    event.preventDefault();
    const by = dimension.step * way * (event.shiftKey ? 10 : 1);
    edit({ [path]: onGrid(dimension.value + by, path, dimension.step) }, dimension.name);
  };

  const start = (event: PointerEvent<SVGGElement>) => {
    if (!path || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const onEscape = (pressed: globalThis.KeyboardEvent) => {
      if (pressed.key === 'Escape') finish(false)();
    };
    addEventListener('keydown', onEscape);
    const release = () => removeEventListener('keydown', onEscape);
    hold.current = { dimension, x: event.clientX, y: event.clientY, release };
    beginDrag(path, dimension.name);
    onDrag(true);
  };
  const move = (event: PointerEvent<SVGGElement>) => {
    const held = hold.current;
    if (!held?.dimension.moved || !held.dimension.path) return;
    const value = held.dimension.moved(
      (event.clientX - held.x) / frame.pxPerM,
      (held.y - event.clientY) / frame.pxPerM,
    );
    drag({ [held.dimension.path]: onGrid(value, held.dimension.path, held.dimension.step / 5) });
  };
  const finish = (keep: boolean) => () => {
    if (!hold.current) return;
    hold.current.release();
    hold.current = null;
    endDrag(keep);
    onDrag(false);
  };

  return (
    <g
      className={active ? 'dimension active' : path ? 'dimension' : 'dimension derived'}
      data-dimension={path ?? 'derived'}
    >
      {dimension.line && (
        <path
          className="dimension-line"
          d={dimension.line}
          markerStart={dimension.leader ? 'url(#dot)' : 'url(#arrow)'}
          markerEnd={dimension.leader ? undefined : 'url(#arrow)'}
        />
      )}
      <g
        className="number"
        transform={`translate(${at.x} ${at.y})`}
        {...(path && spinbutton(dimension, path))}
        onClick={() => path && onOpen(dimension)}
        onKeyDown={onKey}
      >
        <rect className="chip" {...chip} rx={2} />
        <text
          textAnchor={at.upright ? 'middle' : anchor}
          y={4}
          transform={at.upright ? 'rotate(-90)' : undefined}
        >
          {text}
        </text>
      </g>
      {handle && path && (
        <g
          className={`handle ${handle.turn}`}
          transform={`translate(${handle.x} ${handle.y})`}
          data-handle={path}
          aria-hidden="true"
          ref={keepFromScrolling}
          onPointerDown={start}
          onPointerMove={move}
          onPointerUp={finish(true)}
          onPointerCancel={finish(false)}
          onLostPointerCapture={finish(true)}
        >
          <circle className="reach" r={13} />
          <circle className="knob" r={4} />
        </g>
      )}
    </g>
  );
}

/** A finger on a handle drags it; the style for that (touch-action) does not reach parts of a drawing. */
function keepFromScrolling(handle: SVGGElement | null): (() => void) | undefined {
  const prevent = (event: TouchEvent) => event.preventDefault();
  handle?.addEventListener('touchstart', prevent, { passive: false });
  return () => handle?.removeEventListener('touchstart', prevent);
}

function spinbutton(dimension: Dimension, path: string) {
  const facts = describeField(path);
  return {
    role: 'spinbutton',
    tabIndex: 0,
    'aria-label': `${dimension.name}${facts.unit ? ', ' + facts.unit : ''}`,
    'aria-valuenow': dimension.value,
    'aria-valuemin': facts.min,
    'aria-valuemax': facts.max,
    'aria-valuetext': `${dimension.value} ${facts.unit}`.trim(),
  };
}

/** The value on the grid of `step`, within what the file accepts. */
function onGrid(value: number, path: string, step: number): number {
  const { whole, min, max } = describeField(path);
  const grid = whole ? 1 : step;
  return Math.min(max, Math.max(min, Number((Math.round(value / grid) * grid).toFixed(6))));
}
