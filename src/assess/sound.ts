import { soundOf } from '../sound/sound.ts';
import { soundSource, type SoundSource } from '../sound/source.ts';
import type { Listener } from '../sound/levels.ts';
import type { Sound } from '../sound/types.ts';
import { angularSpeedFromRpm } from '../quantities/units.ts';
import type { Model } from './model.ts';
import type { FanPoint, Remark } from './types.ts';

/** A fan at a point an assessment has already, as a source of sound. */
export const sourceAt = ({ project, layout, rotor, air }: Model, point: FanPoint): SoundSource =>
  soundSource(project.fan, project.printer, layout, rotor, air, {
    omega: angularSpeedFromRpm(point.rpm),
    axialVelocity: point.axialVelocity_mps,
    annuli: point.annuli,
  });

/** The sound of the craft from the points an assessment has; `listener` left out: the brief's 3 m over hard ground. */
export function soundOfPoints(
  model: Model,
  full: FanPoint,
  hover: FanPoint | null,
  listener?: Listener,
): Sound {
  const { brief, craft } = model.project;
  return soundOf({
    hover: hover && sourceAt(model, hover),
    hovers: hover !== null && hover.throttle !== null && hover.throttle <= 1,
    full: sourceAt(model, full),
    fans: craft.fanCount,
    wish_dBA: brief.noiseWish_dBA,
    ...(listener && { listener }),
  });
}

/** What to mind about the sound of a craft. */
export function soundRemarks(sound: Sound): Remark[] {
  const { wish } = sound;
  if (!wish || wish.holds === 'yes') return [];
  return [
    { weight: wish.holds === 'likely' ? 'note' : 'care', path: 'brief.noiseWish_dBA', text: wish.text },
  ];
}
