import { z } from 'zod';
import { benchRunSchema } from './bench.ts';
import { calibrationSchema } from './calibration.ts';
import { count, quantity } from './fields.ts';

/** The newest project file version this program reads and writes. */
export const SCHEMA_VERSION = 1;

const name = z.string().max(200);
const note = z.string().max(20_000);

/** What the craft must do, and where. */
export const briefSchema = z.looseObject({
  payload_g: quantity(
    0,
    20_000,
    'Mass of what the craft carries and does not need to fly: camera, sensor, parcel.',
  ),
  wanted_min: quantity(0, 240, 'Hover time you want from one charge.', '3 to 8'),
  largestDuctWidth_mm: quantity(
    10,
    2000,
    'Largest outer width one duct may have, for the gap it must pass or the bed it is printed on.',
  ),
  altitude_m: quantity(-430, 9000, 'Height above sea level; thinner air lifts less.'),
  airTemperature_C: quantity(-40, 60, 'Air temperature where it flies; warm air is thinner.'),
  noiseWish_dBA: quantity(20, 130, 'Loudest A-weighted level you would accept at 3 m.')
    .nullable()
    .default(null),
});

/** What holds ducts, battery and electronics together. Left out: nothing of it is printed here. */
export const frameSchema = z
  .looseObject({
    kind: z
      .enum(['none', 'one body', 'modular'])
      .default('none')
      .describe(
        'Printed in one body with the ducts, as a plate with arms screwed to the ducts, or not printed here.',
      ),
    plate_mm: quantity(0.8, 20, 'Thickness of the plate.', '2 to 3').default(2.4),
    armWidth_mm: quantity(3, 100, 'Width of an arm from plate to duct.', '8 to 14').default(10),
    boardSpacing_mm: quantity(
      8,
      100,
      'Distance between the four mounting holes of the electronics board, square.',
      '16, 20, 25.5 or 30.5',
    ).default(20),
    boardHole_mm: quantity(1, 6, 'Thread size of the screws that hold the board.', '2 or 3').default(2),
    bolt_mm: quantity(1, 8, 'Thread size of the screws between duct, arm and plate.', '2 or 3').default(2),
    fastening: z
      .enum(['through bolt', 'heat-set insert', 'thread-forming'])
      .default('through bolt')
      .describe('Screw through both parts with a nut, into an insert melted in, or cut into the plastic.'),
    bayLength_mm: quantity(5, 500, 'Length of the battery as it lies in its bay.').default(60),
    bayWidth_mm: quantity(5, 500, 'Width of the battery as it lies in its bay.').default(30),
    bayHeight_mm: quantity(3, 300, 'Height of the battery as it lies in its bay.').default(25),
  })
  .prefault({});

/** How many fans, how they stand, and everything aboard that is neither printed nor named below. */
export const craftSchema = z.looseObject({
  fanCount: count(1, 12, 'How many fans share the weight.', '4'),
  auxiliaryPower_W: quantity(
    0,
    500,
    'Power the electronics and the payload take in flight.',
    '1 to 5',
  ).default(0),
  layout: z.enum(['ring', 'row', 'two rows']).describe('How the ducts stand when seen from above.'),
  ductSpacing_mm: quantity(0, 1000, 'Gap between the rims of two neighbouring fans.', '3 to 10').default(4),
  batteryBelow_mm: quantity(
    -300,
    300,
    'How far the middle of the battery lies below the plane of the rotors; above it is negative.',
    '10 to 40',
  ).default(20),
  payloadBelow_mm: quantity(
    -500,
    500,
    'How far the middle of the payload lies below the plane of the rotors; above it is negative.',
    '20 to 60',
  ).default(30),
  tilt_deg: quantity(
    -30,
    30,
    'Lean of the fans: positive leans their tops toward the middle, so that the jets part.',
    '0 to 8',
  ).default(0),
  dropHeight_m: quantity(
    0,
    50,
    'Height from which a drop on hard ground should be survived.',
    '0.5 to 2',
  ).default(1),
  fixedMasses: z.array(
    z.looseObject({
      name,
      mass_g: quantity(0, 20_000, 'Mass of this item.'),
    }),
  ),
  frame: frameSchema,
});

/** How a craft is put together where nobody says otherwise. */
export const PLAIN_PLACEMENT = {
  ductSpacing_mm: 4,
  batteryBelow_mm: 20,
  payloadBelow_mm: 30,
  tilt_deg: 0,
  dropHeight_m: 1,
  frame: frameSchema.parse({}),
} as const;

export const motorSchema = z.looseObject({
  name,
  velocityConstant_rpmPerV: quantity(
    10,
    100_000,
    'Speed for each volt with no load (trade name: KV).',
    '1 500 to 20 000',
  ),
  resistance_mohm: quantity(0.1, 10_000, 'Winding resistance between two of the three leads.', '40 to 400'),
  noLoadCurrent_A: quantity(0, 20, 'Current with the shaft free, at the no-load voltage.', '0.2 to 1'),
  noLoadVoltage_V: quantity(0.1, 100, 'Voltage at which the no-load current was read.', '5 to 12'),
  noLoadSteady_ratio: quantity(
    0,
    1,
    'Share of the no-load current that does not grow with speed; two no-load readings give it.',
    '0.3 to 0.8',
  ).default(0.5),
  continuousCurrent_A: quantity(0.1, 500, 'Current the winding stands for minutes.', '4 to 20'),
  burstCurrent_A: quantity(0.1, 500, 'Current the winding stands for seconds.', '6 to 30'),
  mass_g: quantity(0.1, 2000, 'Mass of one motor with its leads.'),
  canDiameter_mm: quantity(3, 200, 'Outer diameter of the turning can.'),
  canHeight_mm: quantity(2, 200, 'Height of the motor without its shaft.'),
  shaftDiameter_mm: quantity(0.5, 20, 'Shaft diameter where the rotor sits.'),
  mountCircle_mm: quantity(2, 100, 'Diameter of the circle through the mounting holes in the base.'),
  mountHoles: count(2, 8, 'Number of mounting holes.', '3 or 4'),
  mountScrew_mm: quantity(0.8, 8, 'Thread size of the mounting screws.', '1.4 or 2'),
});

export const controllerSchema = z.looseObject({
  name,
  resistance_mohm: quantity(0, 1000, 'Resistance of the two switches in the current path.', '5 to 20'),
  switchingLoss_ratio: quantity(
    0,
    0.3,
    'Share of the power lost by switching at part throttle.',
    '0.02 to 0.06',
  ),
  rippleLoss_S: quantity(
    0,
    20,
    'Loss by current ripple in the winding at part throttle, for each (volt × duty × (1 − duty))²; one measured small motor showed about 1.',
    '0 to 1',
  ).default(0.5),
  continuousCurrent_A: quantity(0.1, 500, 'Current one controller channel stands for minutes.'),
  mass_g: quantity(0, 1000, 'Mass for each fan (a shared board: its mass divided by the fans).'),
});

export const batterySchema = z.looseObject({
  name,
  chemistry: z
    .enum(['lithium-polymer', 'lithium-polymer high voltage', 'lithium-ion'])
    .describe('Sets the voltage against charge.'),
  cells: count(1, 14, 'Cells in series.', '2 to 6'),
  parallel: count(1, 20, 'Cells side by side in each series place.', '1').default(1),
  capacity_mAh: quantity(10, 100_000, 'Capacity of the whole pack.'),
  cellResistance_mohm: quantity(0.1, 500, 'Inner resistance of one cell.', '5 to 40'),
  leadResistance_mohm: quantity(0, 500, 'Resistance of leads and plug, there and back.', '5 to 20'),
  dischargeLimit_C: quantity(
    0.5,
    300,
    'Largest steady current over capacity that the maker allows.',
    '25 to 75',
  ),
  usable_ratio: quantity(0.05, 1, 'Share of the charge you are willing to use.', '0.8'),
  mass_g: quantity(0.5, 50_000, 'Mass of the pack with leads and plug.'),
});

export const bladeStationSchema = z.looseObject({
  span_ratio: quantity(0, 1, 'Place along the blade: 0 at the hub, 1 at the tip.'),
  chord_mm: quantity(0.5, 500, 'Width of the blade from front edge to back edge.'),
  angle_deg: quantity(-90, 90, 'Angle of the chord to the plane of rotation.', '15 to 50'),
  thickness_ratio: quantity(0.005, 0.4, 'Largest thickness over chord.', '0.05 to 0.12'),
  camber_ratio: quantity(-0.15, 0.15, 'Height of the mean line over chord.', '0.03 to 0.07'),
});

export const polarPointSchema = z.looseObject({
  re: quantity(100, 1e8, 'Reynolds number on the chord.'),
  alpha_deg: quantity(-180, 180, 'Angle of attack.'),
  cl: quantity(-5, 5, 'Lift coefficient.'),
  cd: quantity(0, 5, 'Drag coefficient.'),
});

export const sectionSchema = z.looseObject({
  family: z
    .enum(['flat-plate', 'arc-plate', 'four-digit'])
    .describe(
      'Shape of the blade section: plate, plate bent to an arc, or the NACA four-digit thickness form.',
    ),
  camberPosition_ratio: quantity(
    0.1,
    0.9,
    'Where the mean line stands highest, from the front edge.',
    '0.4',
  ).default(0.4),
  trailingEdge_mm: quantity(0, 5, 'Thickness of the back edge as drawn.', '0 to 0.8').default(0),
  leadingEdge_mm: quantity(
    0,
    5,
    'Least thickness of the front edge, so that it prints; 0 leaves the edge of the section as it is.',
    '0 to 0.8',
  ).default(0),
  roughness_mm: quantity(0, 1, 'Height of the steps or grains on the blade surface.', '0 to 0.1').default(0),
  noseBluntness_ratio: quantity(
    0.05,
    3,
    'Roundness of the front edge against the four-digit form; left out: 1 for that form, 0.5 for a plate.',
  )
    .nullable()
    .default(null),
  polar: z
    .array(polarPointSchema)
    .min(3)
    .max(5000)
    .nullable()
    .default(null)
    .describe('Measured lift and drag of this section, used in place of the model within its angles.'),
});

/** What a section has beside its shape where nobody says otherwise. */
export const PLAIN_SECTION = {
  leadingEdge_mm: 0,
  roughness_mm: 0,
  noseBluntness_ratio: null,
  polar: null,
} as const;

export const ductSchema = z.looseObject({
  lipRadius_mm: quantity(0, 100, 'Radius of the rounded inlet.', '5 to 15 % of the tip diameter'),
  length_mm: quantity(2, 1000, 'From the top of the lip to the exit.'),
  wall_mm: quantity(0.2, 20, 'Wall thickness.', '0.8 to 2'),
  exitAreaRatio: quantity(0.3, 2, 'Area at the exit over area at the rotor.', '1 to 1.1'),
  rotorDepth_mm: quantity(0, 500, 'From the lower end of the lip to the middle of the rotor.'),
  tailCone: z.boolean().default(false).describe('Whether the motor ends in a cone, or abruptly.'),
  rings: count(1, 2, 'Rings the duct wall is printed in; two meet at a step below the rotor.', '1').default(
    1,
  ),
  lipApart: z
    .boolean()
    .default(false)
    .describe('Whether the lip is a part of its own, printed smooth side up.'),
  wireSlot_mm: quantity(
    0,
    20,
    'Width of the slot in the wall that lets the motor leads out; 0: none.',
    '3 to 6',
  ).default(0),
  lugCount: count(0, 8, 'Lugs on the outside of the duct that take the frame screws.', '0 to 4').default(0),
  lugHole_mm: quantity(1, 8, 'Thread size of the screws in the lugs.', '2 or 3').default(2),
});

/** How a duct is divided where nobody says otherwise. */
export const PLAIN_DUCT = { rings: 1, lipApart: false, wireSlot_mm: 0, lugCount: 0, lugHole_mm: 2 } as const;

export const statorSchema = z.looseObject({
  vaneCount: count(2, 24, 'Vanes or struts that carry the motor.', '3 to 7, not a multiple of the blades'),
  chord_mm: quantity(1, 200, 'Length of a vane along the axis.'),
  thickness_mm: quantity(0.4, 20, 'Thickness of a vane.', '1.2 to 2.5'),
  turn_deg: quantity(
    0,
    60,
    'Angle by which a curved vane turns the air; match it to the swirl behind the rotor.',
    '10 to 30',
  ).default(25),
  curved: z
    .boolean()
    .default(false)
    .describe('Vanes curved to take the swirl out of the air, or straight struts.'),
});

/** How the rotor sits on the motor. Left out: pressed on the shaft. */
export const hubSchema = z
  .looseObject({
    hold: z
      .enum(['press fit', 'bell screws', 'threaded shaft'])
      .default('press fit')
      .describe(
        'Pressed on the shaft, screwed to the bell of the motor, or clamped on a threaded shaft by a nut.',
      ),
    screwCircle_mm: quantity(
      2,
      100,
      'Diameter of the circle through the screws in the bell, or in the cap of a pressed hub with blades apart.',
      '5 to 12',
    ).default(7),
    screwCount: count(2, 6, 'Screws that hold the hub on the bell, or its cap.', '3').default(3),
    screw_mm: quantity(0.8, 8, 'Thread size of those screws.', '1.4 or 2').default(2),
    thread_mm: quantity(1, 20, 'Thread size of the shaft that passes through the hub.', '3 or 5').default(5),
    spinner: z.boolean().default(false).describe('Whether a rounded nose covers the hub.'),
  })
  .prefault({});

/** How a rotor is held and divided where nobody says otherwise. */
export const PLAIN_ROTOR = {
  hub: hubSchema.parse({}),
  rotorParts: 'one piece',
  tipRing_mm: 0,
  bladesPrinted: 'standing',
  lies: [] as Lie[],
  safetyFactor: 3,
} as const;

/** Every kind of part that may be printed. */
export const PART_KINDS = [
  'rotor',
  'blade',
  'hub',
  'hubCap',
  'spinner',
  'duct',
  'ductUpper',
  'ductLower',
  'lip',
  'tailCone',
  'body',
  'plate',
  'arm',
  'bridge',
] as const;

const along = (axis: string) =>
  quantity(
    -1,
    1,
    `What faces the bed, along ${axis} of the fan; its length does not matter, all 0 is as usual.`,
  );

/** How one kind of part is laid on the bed, where it is not laid as usual. */
export const lieSchema = z.looseObject({
  part: z.enum(PART_KINDS).describe('The part that is laid so.'),
  downX: along('x (out along blade number one)'),
  downY: along('y'),
  downZ: along('z (downstream)'),
});

export type Lie = z.infer<typeof lieSchema>;

export const fanSchema = z.looseObject({
  kind: z.enum(['ducted', 'open']).describe('With a duct, or as an open rotor.'),
  tipDiameter_mm: quantity(10, 1500, 'Diameter over the blade tips.'),
  hubDiameter_mm: quantity(3, 500, 'Diameter where the blades begin.'),
  hubHeight_mm: quantity(1, 200, 'Height of the rotor hub along the axis.'),
  bladeCount: count(1, 20, 'Number of blades.', '3 to 9'),
  rootFillet_mm: quantity(0, 10, 'Radius of the blend from blade to hub.', '0.5 to 1.5').default(0.8),
  hub: hubSchema,
  rotorParts: z
    .enum(['one piece', 'blades apart'])
    .default('one piece')
    .describe('Rotor printed whole, or blades printed each and held in a hub by keyed roots.'),
  tipRing_mm: quantity(
    0,
    10,
    'Thickness of a ring that joins the blade tips and turns with them; 0: none.',
    '0 or 0.8 to 1.2',
  ).default(0),
  bladesPrinted: z
    .enum(['lying', 'standing', 'as laid'])
    .default('standing')
    .describe(
      'How blades apart lie on the bed: layers along the blade, across it, or as the list fan.lies says.',
    ),
  lies: z
    .array(lieSchema)
    .max(40)
    .default([])
    .describe('Parts that are laid on the bed otherwise than usual; the first entry of a part counts.'),
  safetyFactor: quantity(
    1,
    20,
    'Strength of the rotor over the stress you allow at full throttle.',
    '2 to 4',
  ).default(3),
  section: sectionSchema,
  blade: z.array(bladeStationSchema).min(1).max(40),
  tipGap_mm: quantity(0, 20, 'Gap between blade tip and duct wall at rest.', '0.3 to 0.8'),
  duct: ductSchema,
  stator: statorSchema,
});

export const printerSchema = z.looseObject({
  name,
  process: z.enum(['filament', 'resin']).describe('How the printer builds the part.'),
  lineWidth_mm: quantity(0.02, 3, 'Width of one printed line (resin: one pixel).', '0.4 to 0.45'),
  layer_mm: quantity(0.01, 1, 'Layer height.', '0.08 to 0.2'),
  minimumWall_mm: quantity(0.02, 5, 'Thinnest wall that comes out whole.', 'one or two lines'),
  xyError_mm: quantity(-1, 1, 'How much larger than drawn an outside comes out, on each side.').default(0),
  xyScatter_mm: quantity(0, 1, 'Scatter of that from part to part (one standard deviation).', '0.05 to 0.1'),
  holeShrink_mm: quantity(
    -1,
    1,
    'How much smaller than drawn a hole comes out, in diameter.',
    '0.1 to 0.3',
  ).default(0.2),
  warp_ratio: quantity(
    0,
    0.05,
    'Shrinkage or lifting of long parts, over their length.',
    '0.001 to 0.005',
  ).default(0.002),
  walls: count(1, 20, 'Lines side by side in a wall before infill begins.', '2 to 4').default(3),
  infill_ratio: quantity(0, 1, 'Share of the inside that is filled; 0 leaves a shell.', '0 to 1').default(1),
  skinLayers: count(0, 50, 'Closed layers above and below an inside that is not full.', '3 to 6').default(4),
  speed_mmps: quantity(
    1,
    1000,
    'Usual speed of the nozzle (resin: counted by layers instead).',
    '30 to 120',
  ).default(60),
  layerTime_s: quantity(0, 120, 'Time lost on each layer: lift, wait, exposure.', '1, resin 8').default(1),
  overhang_deg: quantity(0, 90, 'Largest lean from the vertical that prints without support.', '45').default(
    45,
  ),
  bridge_mm: quantity(0, 200, 'Longest free span between two supports that prints well.', '5 to 15').default(
    8,
  ),
  source: z
    .enum(['typical', 'coupon', 'own'])
    .default('typical')
    .describe('Where errors and limits come from: typical values, a printed coupon, or your own knowledge.'),
  bedX_mm: quantity(20, 2000, 'Bed width.'),
  bedY_mm: quantity(20, 2000, 'Bed depth.'),
  bedZ_mm: quantity(20, 2000, 'Largest height.'),
});

/** How a part is filled and paced, and how far its profile may be believed, where nobody says otherwise. */
export const PLAIN_PRINTING = {
  warp_ratio: 0.002,
  walls: 3,
  infill_ratio: 1,
  skinLayers: 4,
  speed_mmps: 60,
  layerTime_s: 1,
  overhang_deg: 45,
  bridge_mm: 8,
  source: 'typical',
} as const;

export const materialSchema = z.looseObject({
  name,
  density_kgpm3: quantity(200, 9000, 'Density of the solid material.', '1 040 to 1 290'),
  modulus_GPa: quantity(0.01, 300, 'Stiffness (elastic modulus).', '1.7 to 4'),
  strengthInPlane_MPa: quantity(0.5, 2000, 'Tensile strength along the layers.', '40 to 65'),
  strengthAcrossLayers_MPa: quantity(0.5, 2000, 'Tensile strength across the layers.', '25 to 45'),
  softening_C: quantity(20, 500, 'Temperature at which it goes soft.', '55 to 107'),
  pricePerKg: quantity(
    0,
    10_000,
    'Price of a kilogram, in your own currency; 0: not said.',
    '15 to 60',
  ).default(0),
});

/** One run of the rotor on the balancing stand; a trial mass of 0 is the run as the rotor came. */
export const balanceRunSchema = z.looseObject({
  amplitude: quantity(
    0,
    1e9,
    'Vibration once a turn, in any unit, the same for all runs and at the same speed.',
  ),
  trialMass_g: quantity(0, 1000, 'Mass stuck on for this run; 0: the rotor as it came.').default(0),
  trialRadius_mm: quantity(0, 1000, 'Distance of that mass from the axis.').default(10),
  trialAngle_deg: quantity(
    -360,
    360,
    'Place of that mass, counted from the mark on the rotor, always the same way round.',
    '0, 120, 240',
  ).default(0),
  phase_deg: quantity(
    -360,
    360,
    'Phase of the vibration after the mark, counted the same way round as the places; left out: not measured.',
  )
    .nullable()
    .default(null),
});

/**
 * Readings of the rotor that is on the bench now. They stand beside the builds and not in one: a rotor is balanced
 * before its build is written down, a craft has several rotors of one build, and a frozen build must not change when
 * the next rotor comes to the bench.
 */
export const balanceSchema = z
  .looseObject({
    grade_mmps: quantity(
      0.1,
      4000,
      'Balance grade: speed of the centre of mass round the axis (ISO 21940-11).',
      '6.3 or 16',
    ).default(16),
    bladeMasses_g: z
      .array(quantity(0.001, 5000, 'Mass of one loose blade, as weighed.'))
      .max(20)
      .default([])
      .describe('Blades as weighed; the first is the blade you numbered 1.'),
    runs: z
      .array(balanceRunSchema)
      .max(24)
      .default([])
      .describe('Runs on the stand: as it came, then with a trial mass at three places.'),
    correctionRadius_mm: quantity(
      0.5,
      1000,
      'Radius at which you add or take away; left out: the middle of the hub rim.',
    )
      .nullable()
      .default(null),
    drill_mm: quantity(0.3, 20, 'Drill for taking material away.', '1 to 2').default(1.5),
    tape_gpm: quantity(0.01, 1000, 'Mass of a metre of the tape you stick on; left out: not weighed.')
      .nullable()
      .default(null),
  })
  .prefault({});

const designShape = {
  craft: craftSchema,
  motor: motorSchema,
  controller: controllerSchema,
  battery: batterySchema,
  fan: fanSchema,
  printer: printerSchema,
  material: materialSchema,
  calibration: calibrationSchema,
};

/** Everything that is made or bought: what a build freezes. */
export const designSchema = z.looseObject(designShape);

export const buildSchema = z.looseObject({
  id: z.string().min(1).max(60),
  name,
  state: z.enum(['planned', 'made']).default('planned'),
  date: z.string().max(40).default(''),
  why: note.default(''),
  design: designSchema,
  learned: z.array(note).max(200).default([]).describe('What the bench taught about this build, in words.'),
  bench: z.array(benchRunSchema).max(500).default([]).describe('Runs at the bench, oldest first.'),
});

/** A fan unit one can buy ready made, as its maker states it. Prices are in the user's own currency. */
export const boughtUnitSchema = z.looseObject({
  name,
  price: quantity(0, 1e6, 'Price of one unit.').default(0),
  mass_g: quantity(0.1, 100_000, 'Mass of one unit.').default(20),
  thrust_N: quantity(0, 100_000, 'Thrust its maker states at the voltage of your pack.').default(0),
  current_A: quantity(0, 10_000, 'Current its maker states at that thrust.').default(0),
  includesController: z
    .boolean()
    .default(false)
    .describe('Whether it brings its speed controller; else it keeps the one of the project.'),
});

/** What making costs where the user lives, and what could be bought instead. A price of 0: not said. */
export const purchasesSchema = z
  .looseObject({
    currency: z
      .string()
      .max(12)
      .default('¤')
      .describe('Word or sign for the money in which all prices are given.'),
    motorPrice: quantity(0, 1e6, 'Price of one motor; 0: not said.').default(0),
    controllerPrice: quantity(0, 1e6, 'Price of one controller channel; 0: not said.').default(0),
    printerHourPrice: quantity(0, 1e6, 'Energy and wear of the printer for an hour; 0: not counted.').default(
      0,
    ),
    labourHourPrice: quantity(0, 1e6, 'What an hour of your own time is worth; 0: not counted.').default(0),
    scrap_ratio: quantity(
      0,
      0.95,
      'Share of prints that go to scrap; the rotor is the hard part.',
      '0.1 to 0.3',
    ).default(0.15),
    laidDown_mm3ps: quantity(0.01, 1000, 'Material the printer lays down in a second.', '2 to 10').default(4),
    handsOn_h: quantity(0, 1000, 'Your work on one fan: clean up, balance, mount.', '0.3 to 1').default(0.5),
    units: z.array(boughtUnitSchema).max(20).default([]).describe('Fan units one can buy ready made.'),
  })
  .prefault({});

/** The whole project file. Keys carry their units; unknown keys are kept. */
export const projectSchema = z.looseObject({
  schemaVersion: z.literal(SCHEMA_VERSION),
  name,
  note: note.default(''),
  brief: briefSchema,
  ...designShape,
  purchases: purchasesSchema,
  balance: balanceSchema,
  builds: z.array(buildSchema).default([]),
});

export type Project = z.infer<typeof projectSchema>;
export type Design = z.infer<typeof designSchema>;
export type Build = z.infer<typeof buildSchema>;
export type Brief = z.infer<typeof briefSchema>;
export type Craft = z.infer<typeof craftSchema>;
export type Motor = z.infer<typeof motorSchema>;
export type Controller = z.infer<typeof controllerSchema>;
export type Battery = z.infer<typeof batterySchema>;
export type Fan = z.infer<typeof fanSchema>;
export type Section = z.infer<typeof sectionSchema>;
export type BladeStation = z.infer<typeof bladeStationSchema>;
export type Duct = z.infer<typeof ductSchema>;
export type Stator = z.infer<typeof statorSchema>;
export type Printer = z.infer<typeof printerSchema>;
export type Material = z.infer<typeof materialSchema>;
export type BalanceRun = z.infer<typeof balanceRunSchema>;
