import { checkValue, getPath, setPath } from '../project/path.ts';
import type { Project } from '../project/schema.ts';
import { formatPercent } from '../quantities/format.ts';
import { figuresOf, type Figures } from './figures.ts';
import { turned } from './tried.ts';

/** What one step of one number on the sheet does to the craft. */
export interface Slope {
  /** Path of the number, or of the list it belongs to. */
  readonly path: string;
  readonly name: string;
  /** "+1 mm" */
  readonly step: string;
  /** Thrust of a fan at full throttle, over what it is now, minus 1. */
  readonly thrust_ratio: number;
  /** Thrust over weight, over what it is now, minus 1. */
  readonly margin_ratio: number;
  readonly mass_g: number;
  /** NaN where the craft does not hover on both sides. */
  readonly hover_min: number;
  readonly level_dB: number;
  /** Whether both sides could be built; else the slope is that of the one that can. */
  readonly sides: 1 | 2;
  readonly words: string;
}

/** A number on the sheet and the step it is told for. */
interface Knob {
  readonly path: string;
  readonly name: string;
  readonly step: string;
  /** The project a step up (1) or down (-1); null where the file does not allow it. */
  readonly moved: (project: Project, side: 1 | -1) => Project | null;
}

const set = (project: Project, path: string, value: number): Project | null =>
  checkValue(path, value) === null ? setPath(project, path, value) : null;

/** Moves one number by `by`. */
function plain(path: string, name: string, by: number, unit: string): Knob {
  return {
    path,
    name,
    step: `+${by}${unit && `\u00a0${unit}`}`,
    moved: (project, side) => {
      const value = getPath(project, path);
      return typeof value === 'number' && Number.isFinite(value)
        ? set(project, path, Number((value + side * by).toPrecision(12)))
        : null;
    },
  };
}

/** The numbers on the sheet of one fan. A number that the drawing does not use is not among them. */
function knobsOf(project: Project): readonly Knob[] {
  const { fan } = project;
  const ducted = fan.kind === 'ducted';
  return [
    plain('fan.tipDiameter_mm', 'tip diameter', 1, 'mm'),
    plain('fan.hubDiameter_mm', 'hub diameter', 1, 'mm'),
    plain('fan.bladeCount', 'blades', 1, ''),
    {
      path: 'fan.blade',
      name: 'blade angle everywhere',
      step: '+1°',
      moved: (p, side) => ({ ...p, fan: turned(p.fan, side) }),
    },
    byShare('fan.blade', 'chord everywhere', 'chord_mm', 0.05),
    byShare('fan.blade', 'camber everywhere', 'camber_ratio', 0.1),
    byShare('fan.blade', 'thickness everywhere', 'thickness_ratio', 0.1),
    plain('fan.section.trailingEdge_mm', 'back edge', 0.1, 'mm'),
    ...(ducted
      ? [
          plain('fan.tipGap_mm', 'tip gap', 0.1, 'mm'),
          plain('fan.duct.lipRadius_mm', 'lip radius', 1, 'mm'),
          plain('fan.duct.length_mm', 'duct length', 1, 'mm'),
          plain('fan.duct.wall_mm', 'duct wall', 0.2, 'mm'),
          plain('fan.duct.exitAreaRatio', 'exit area', 0.05, ''),
          plain('fan.stator.vaneCount', 'vanes', 1, ''),
          plain('fan.stator.chord_mm', 'vane length', 1, 'mm'),
          plain('fan.stator.thickness_mm', 'vane thickness', 0.2, 'mm'),
        ]
      : []),
    plain('motor.velocityConstant_rpmPerV', 'motor speed per volt', 100, 'rpm/V'),
    {
      path: 'battery.capacity_mAh',
      name: 'battery size, its mass with it',
      step: '+5\u00a0%',
      moved: (p, side) => {
        const { battery } = p;
        const k = 1 + 0.05 * side;
        return {
          ...p,
          battery: {
            ...battery,
            capacity_mAh: battery.capacity_mAh * k,
            mass_g: battery.mass_g * k,
            cellResistance_mohm: battery.cellResistance_mohm / k,
          },
        };
      },
    },
    plain('brief.payload_g', 'payload', 10, 'g'),
  ];
}

/** Moves one value of every station of the blade by a share of itself. */
function byShare(
  path: string,
  name: string,
  key: 'chord_mm' | 'camber_ratio' | 'thickness_ratio',
  share: number,
): Knob {
  return {
    path,
    name,
    step: `+${formatPercent(share)}`,
    moved: (p, side) => ({
      ...p,
      fan: { ...p.fan, blade: p.fan.blade.map((s) => ({ ...s, [key]: s[key] * (1 + side * share) })) },
    }),
  };
}

/**
 * What each number on the sheet does, one at a time: the design is really run a step up and a step down, its mass, drive and
 * sound with it, and the slope is the mean over both. A side that can't be built is left out; a number whose both sides can't
 * be built has no slope.
 */
export function slopesOf(project: Project): readonly Slope[] {
  const here = figuresOf(project, { strength: false });
  return knobsOf(project).flatMap((knob) => {
    const side = (to: 1 | -1) => {
      const moved = knob.moved(project, to);
      if (!moved) return null;
      const figures = figuresOf(moved, { strength: false });
      return figures.faults > here.faults ? null : figures;
    };
    const [down, up] = [side(-1), side(1)];
    if (!down && !up) return [];
    return [slopeBetween(knob, here, down ?? here, up ?? here, down && up ? 2 : 1)];
  });
}

function slopeBetween(knob: Knob, here: Figures, down: Figures, up: Figures, sides: 1 | 2): Slope {
  const change = (key: keyof Figures) => (up[key] - down[key]) / sides;
  const hovers = [here, down, up].every((f) => f.thrustToWeight >= 1);
  const slope = {
    path: knob.path,
    name: knob.name,
    step: knob.step,
    thrust_ratio: change('thrust_N') / here.thrust_N,
    margin_ratio: change('thrustToWeight') / here.thrustToWeight,
    mass_g: change('mass_g'),
    hover_min: hovers ? change('hover_min') : NaN,
    level_dB: hovers ? change('level_dBA') : NaN,
    sides,
  };
  return { ...slope, words: slopeWords(slope) };
}

/** "+1 mm tip diameter: +5.2 % thrust, +1.1 g, +12 s, −0.3 dB" */
function slopeWords(slope: Omit<Slope, 'words'>): string {
  const parts = [
    `${signed(slope.thrust_ratio * 100, 1)}\u00a0% thrust`,
    `${signed(slope.margin_ratio * 100, 1)}\u00a0% thrust over weight`,
    `${signed(slope.mass_g, 1)}\u00a0g`,
    ...(Number.isFinite(slope.hover_min) ? [`${signed(slope.hover_min * 60, 0)}\u00a0s of hover`] : []),
    ...(Number.isFinite(slope.level_dB) ? [`${signed(slope.level_dB, 1)}\u00a0dB`] : []),
  ];
  return `${slope.step} ${slope.name}: ${parts.join(', ')}`;
}

/** A number with its sign, plus or minus; nothing but 0 where it rounds to that. */
export function signed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  if (Number(text) === 0) return '0';
  return (value < 0 ? '−' : '+') + text;
}
