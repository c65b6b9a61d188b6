import { NumberField } from '../field/NumberField.tsx';
import type { Dimension } from './dimension.ts';
import type { Frame } from './frame.ts';

interface Props {
  readonly dimension: Dimension;
  readonly frame: Frame;
  readonly onClose: () => void;
}

const WIDTH = 232;

/** A dimension opened where it stands. Enter takes the number, Escape leaves it as it was. */
export function DimensionEditor({ dimension, frame, onClose }: Props) {
  const { path, name, at } = dimension;
  if (!path) return null;
  const left = Math.min(Math.max(6, at.x - WIDTH / 2), frame.width - WIDTH - 6);
  const above = at.y > frame.height * 0.55;
  const place = above ? { bottom: frame.height - at.y + 14 } : { top: at.y + 14 };
  return (
    <div
      className="dimension-editor"
      style={{ left, width: WIDTH, ...place }}
      onBlur={(e) => {
        const wrong = e.currentTarget.querySelector('[aria-invalid="true"]');
        if (!e.currentTarget.contains(e.relatedTarget) && !wrong) setTimeout(() => closeIfGood(onClose), 0);
      }}
    >
      <NumberField key={path} path={path} label={name} focusFirst onDone={() => finish(path, onClose)} />
    </div>
  );
}

/** A blur commits first; an entry that was refused keeps the editor open with what was typed. */
function closeIfGood(onClose: () => void): void {
  if (!document.querySelector('.dimension-editor [aria-invalid="true"]')) onClose();
}

/** Closes and puts the focus back on the number, so that the keyboard carries on where it was. */
function finish(path: string, onClose: () => void): void {
  onClose();
  document.querySelector<SVGElement>(`[data-dimension="${path}"] .number`)?.focus();
}
