import { describePath } from '../../project/path.ts';

/** What a form needs to know of one number: its name in words, its unit, its help and its limits. */
export interface FieldFacts {
  readonly label: string;
  readonly unit: string;
  readonly help: string;
  readonly min: number;
  readonly max: number;
  readonly typical?: string;
  readonly whole: boolean;
  readonly nullable: boolean;
}

/** Names that do not read well when taken from the key alone. */
const LABELS: Readonly<Record<string, string>> = {
  payload_g: 'Payload',
  wanted_min: 'Hover time wanted',
  largestDuctWidth_mm: 'Largest duct width',
  altitude_m: 'Height above sea level',
  noiseWish_dBA: 'Loudest at 3 m',
  fanCount: 'Number of fans',
  velocityConstant_rpmPerV: 'Speed per volt',
  noLoadCurrent_A: 'No-load current',
  noLoadVoltage_V: 'No-load voltage',
  ductSpacing_mm: 'Gap between rims',
  batteryBelow_mm: 'Battery below the rotors',
  payloadBelow_mm: 'Payload below the rotors',
  tilt_deg: 'Lean of the fans',
  noLoadSteady_ratio: 'Steady share of that current',
  auxiliaryPower_W: 'Power of the electronics',
  canDiameter_mm: 'Can diameter',
  mass_g: 'Mass',
  cells: 'Cells in series',
  parallel: 'Cells side by side',
  dischargeLimit_C: 'Discharge limit',
  usable_ratio: 'Usable share of charge',
  switchingLoss_ratio: 'Switching loss, share',
  rippleLoss_S: 'Ripple loss at part throttle',
  bladeCount: 'Blades',
  vaneCount: 'Vanes',
  lipRadius_mm: 'Lip radius',
  length_mm: 'Duct length',
  wall_mm: 'Wall',
  exitAreaRatio: 'Exit area ratio',
  rings: 'Rings of the duct',
  wireSlot_mm: 'Slot for the leads',
  lugCount: 'Lugs',
  lugHole_mm: 'Screws in the lugs',
  tipRing_mm: 'Tip ring',
  screwCircle_mm: 'Circle of the bell screws',
  screwCount: 'Bell screws',
  screw_mm: 'Size of the bell screws',
  thread_mm: 'Thread of the shaft',
  thickness_mm: 'Vane thickness',
  span_ratio: 'Place along the blade',
  angle_deg: 'Angle',
  thickness_ratio: 'Thickness over chord',
  camber_ratio: 'Camber over chord',
  camberPosition_ratio: 'Camber peak, from the front',
  trailingEdge_mm: 'Back edge thickness',
  noseBluntness_ratio: 'Front edge roundness',
  roughness_mm: 'Blade roughness',
  turn_deg: 'Turn of the vanes',
  xyError_mm: 'Outside larger by',
  xyScatter_mm: 'Scatter part to part',
  holeShrink_mm: 'Holes smaller by',
  bedX_mm: 'Bed width',
  bedY_mm: 'Bed depth',
  bedZ_mm: 'Height',
  layer_mm: 'Layer height',
  minimumWall_mm: 'Thinnest wall',
  modulus_GPa: 'Stiffness',
  strengthInPlane_MPa: 'Strength along layers',
  strengthAcrossLayers_MPa: 'Strength across layers',
  softening_C: 'Goes soft at',
  pricePerKg: 'A kilogram of material',
  motorPrice: 'One motor',
  controllerPrice: 'One controller channel',
  printerHourPrice: 'An hour of the printer',
  labourHourPrice: 'An hour of your time',
  scrap_ratio: 'Share of prints lost',
  laidDown_mm3ps: 'Material laid down',
  handsOn_h: 'Your work on one fan',
};

const PLACED_LABELS: Readonly<Record<string, string>> = {
  'fan.stator.chord_mm': 'Vane chord',
};

function labelFor(path: string, key: string): string {
  if (PLACED_LABELS[path]) return PLACED_LABELS[path];
  if (LABELS[key]) return LABELS[key];
  const words = key.replace(/_.*$/, '').replace(/[A-Z]/g, (c) => ' ' + c.toLowerCase());
  return words[0].toUpperCase() + words.slice(1);
}

const known = new Map<string, FieldFacts>();

/** The facts of the number at a project path, for example `fan.blade.2.chord_mm`. Throws where there is none. */
export function describeField(path: string): FieldFacts {
  const generic = path.replace(/\.\d+(?=\.)/g, '.0');
  const ready = known.get(generic);
  if (ready) return ready;
  const field = describePath(generic);
  if (!field || field.min === undefined || field.max === undefined) throw new Error(`no number at ${path}`);
  const { help, min, max, typical, unit, nullable } = field;
  const label = labelFor(generic, generic.slice(generic.lastIndexOf('.') + 1));
  const facts = { help, min, max, typical, unit, nullable, label, whole: field.kind === 'whole number' };
  known.set(generic, facts);
  return facts;
}
