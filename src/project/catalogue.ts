import { PLAIN_PRINTING } from './schema.ts';
import type { Battery, Controller, Material, Motor, Printer } from './schema.ts';

/** A generic part to start from. Its figures are a typical middle, never one maker's data. */
export interface CatalogueEntry<Part> {
  /** Short key that stays the same from version to version. */
  readonly id: string;
  readonly part: Part;
  /** Where the figures come from and how far real parts stray from them. */
  readonly note: string;
}

const FROM_MEMORY = 'typical values, from memory';

const MOTOR_NOTE = `${FROM_MEMORY}: speed for each volt ±7 %, resistance ±25 %, no-load current ±40 %, mass ±12 %. Measure your own, or take the maker's figures.`;

/** Stator diameter and height in the name as the trade counts them: 1404 is 14 mm across and 4 mm high. */
function motor(
  stator: string,
  velocityConstant_rpmPerV: number,
  [resistance_mohm, noLoadCurrent_A, noLoadVoltage_V]: readonly [number, number, number],
  [continuousCurrent_A, burstCurrent_A]: readonly [number, number],
  [mass_g, canDiameter_mm, canHeight_mm, shaftDiameter_mm]: readonly [number, number, number, number],
  [mountCircle_mm, mountHoles, mountScrew_mm]: readonly [number, number, number],
): CatalogueEntry<Motor> {
  return {
    id: `motor-${stator}-${velocityConstant_rpmPerV}`,
    note: MOTOR_NOTE,
    part: {
      name: `generic outrunner, stator ${stator}, ${velocityConstant_rpmPerV} rpm/V`,
      velocityConstant_rpmPerV,
      resistance_mohm,
      noLoadCurrent_A,
      noLoadVoltage_V,
      noLoadSteady_ratio: 0.5,
      continuousCurrent_A,
      burstCurrent_A,
      mass_g,
      canDiameter_mm,
      canHeight_mm,
      shaftDiameter_mm,
      mountCircle_mm,
      mountHoles,
      mountScrew_mm,
    },
  };
}

/** Small outrunners, lightest first. Columns: [mΩ, A, V], [A, A], [g, mm, mm, mm], [mm, holes, mm]. */
export const motors: readonly CatalogueEntry<Motor>[] = [
  motor('1102', 10000, [135, 0.5, 4], [4, 6], [2.8, 13.5, 9.5, 1.5], [6.6, 3, 1.4]),
  motor('1103', 8000, [125, 0.5, 5], [5, 8], [4, 13.8, 11, 1.5], [9, 4, 2]),
  motor('1105', 5500, [130, 0.5, 7], [7, 10], [5.4, 14, 13, 1.5], [9, 4, 2]),
  motor('1106', 4500, [150, 0.45, 8], [8, 12], [6.8, 14.2, 14.5, 1.5], [9, 4, 2]),
  motor('1204', 5000, [140, 0.5, 8], [8, 11], [6.2, 15.6, 12, 1.5], [9, 4, 2]),
  motor('1303', 5000, [150, 0.5, 8], [7, 10], [5.5, 17, 10.5, 1.5], [9, 4, 2]),
  motor('1404', 2750, [200, 0.4, 10], [9, 12], [9.2, 18.2, 13, 1.5], [12, 4, 2]),
  motor('1404', 3800, [120, 0.5, 8], [11, 15], [9.2, 18.2, 13, 1.5], [12, 4, 2]),
  motor('1504', 3000, [130, 0.5, 10], [12, 16], [12.2, 19, 13.5, 1.5], [12, 4, 2]),
  motor('1507', 2700, [110, 0.6, 10], [15, 20], [15, 19.2, 16.5, 1.5], [12, 4, 2]),
  motor('1507', 3600, [75, 0.8, 10], [18, 24], [15, 19.2, 16.5, 1.5], [12, 4, 2]),
  motor('1806', 2300, [110, 0.5, 10], [13, 18], [18, 23, 15.5, 2], [12, 4, 2]),
  motor('2004', 1800, [170, 0.4, 12], [11, 15], [16.5, 24.2, 13.5, 1.5], [12, 4, 2]),
  motor('2004', 2900, [85, 0.7, 10], [16, 22], [16.5, 24.2, 13.5, 1.5], [12, 4, 2]),
  motor('2204', 2300, [85, 0.8, 10], [18, 25], [24, 27.8, 16, 3], [16, 4, 3]),
  motor('2207', 1750, [68, 1, 10], [30, 40], [32.5, 27.8, 19.5, 4], [16, 4, 3]),
  motor('2207', 2500, [38, 1.5, 10], [35, 48], [32.5, 27.8, 19.5, 4], [16, 4, 3]),
];

const BATTERY_NOTE = `${FROM_MEMORY}: mass ±12 %, cell resistance ±40 % (it doubles in the cold and with age). Weigh the pack.`;

function battery(
  chemistry: Battery['chemistry'],
  cells: number,
  capacity_mAh: number,
  [cellResistance_mohm, leadResistance_mohm]: readonly [number, number],
  dischargeLimit_C: number,
  mass_g: number,
): CatalogueEntry<Battery> {
  const kind = {
    'lithium-polymer': 'pouch',
    'lithium-polymer high voltage': 'high-voltage pouch',
    'lithium-ion': 'round-cell',
  };
  return {
    id: `battery-${{ 'lithium-polymer': 'lp', 'lithium-polymer high voltage': 'hv', 'lithium-ion': 'li' }[chemistry]}-${cells}s-${capacity_mAh}`,
    note: BATTERY_NOTE,
    part: {
      name: `generic ${cells}-cell ${kind[chemistry]} pack, ${capacity_mAh} mAh`,
      chemistry,
      cells,
      parallel: 1,
      capacity_mAh,
      cellResistance_mohm,
      leadResistance_mohm,
      dischargeLimit_C,
      usable_ratio: 0.8,
      mass_g,
    },
  };
}

/** Packs by cells, then capacity. Columns: [cell mΩ, leads mΩ], C, g. */
export const batteries: readonly CatalogueEntry<Battery>[] = [
  battery('lithium-polymer high voltage', 1, 450, [22, 15], 40, 12.5),
  battery('lithium-polymer', 2, 300, [32, 15], 40, 18.5),
  battery('lithium-polymer', 2, 450, [22, 15], 45, 27),
  battery('lithium-polymer', 2, 650, [16, 12], 45, 38),
  battery('lithium-polymer', 2, 850, [12, 12], 45, 49),
  battery('lithium-polymer', 3, 450, [22, 12], 45, 41),
  battery('lithium-polymer', 3, 650, [16, 10], 45, 57),
  battery('lithium-polymer', 3, 850, [12, 10], 45, 73),
  battery('lithium-polymer', 3, 1300, [8, 8], 50, 110),
  battery('lithium-polymer', 3, 2200, [5, 6], 35, 180),
  battery('lithium-polymer', 4, 450, [22, 12], 50, 54),
  battery('lithium-polymer', 4, 650, [15, 10], 55, 75),
  battery('lithium-polymer', 4, 850, [11, 8], 55, 97),
  battery('lithium-polymer', 4, 1300, [7, 6], 60, 150),
  battery('lithium-polymer', 4, 1550, [6, 6], 60, 178),
  battery('lithium-polymer', 4, 2200, [5, 6], 45, 240),
  battery('lithium-polymer', 6, 850, [11, 8], 60, 145),
  battery('lithium-polymer', 6, 1100, [8, 6], 70, 185),
  battery('lithium-polymer', 6, 1300, [7, 6], 70, 215),
  battery('lithium-ion', 3, 3000, [22, 8], 5, 155),
  battery('lithium-ion', 4, 4200, [16, 6], 8, 300),
];

function controller(
  continuousCurrent_A: number,
  resistance_mohm: number,
  mass_g: number,
): CatalogueEntry<Controller> {
  return {
    id: `controller-${continuousCurrent_A}`,
    note: `${FROM_MEMORY}: resistance ±50 %, mass ±30 %. Mass is that of a four-channel board, shared by its four fans.`,
    part: {
      name: `generic board, ${continuousCurrent_A} A a channel`,
      resistance_mohm,
      switchingLoss_ratio: 0.04,
      rippleLoss_S: 0.5,
      continuousCurrent_A,
      mass_g,
    },
  };
}

/** Speed controllers, smallest first. */
export const controllers: readonly CatalogueEntry<Controller>[] = [
  controller(6, 25, 0.9),
  controller(12, 14, 1.6),
  controller(20, 9, 2.2),
  controller(35, 5, 3.2),
  controller(50, 3, 4),
];

const PRINTER_NOTE = `${FROM_MEMORY}: print the coupon and measure; error and scatter differ from printer to printer by a factor of two.`;
/** Resin is cured layer by layer, solid, and held by supports wherever it leans more. */
const RESIN_PRINTING = {
  ...PLAIN_PRINTING,
  walls: 1,
  layerTime_s: 8,
  overhang_deg: 60,
  bridge_mm: 3,
} as const;
const bed = { ...PLAIN_PRINTING, bedX_mm: 220, bedY_mm: 220, bedZ_mm: 240 };

/** Printer set-ups a maker is likely to have. */
export const printers: readonly CatalogueEntry<Printer>[] = [
  {
    id: 'printer-filament-040',
    note: PRINTER_NOTE,
    part: {
      name: 'filament printer, 0.4 mm nozzle',
      process: 'filament',
      lineWidth_mm: 0.42,
      layer_mm: 0.12,
      minimumWall_mm: 0.8,
      xyError_mm: 0.05,
      xyScatter_mm: 0.06,
      holeShrink_mm: 0.2,
      ...bed,
    },
  },
  {
    id: 'printer-filament-025',
    note: PRINTER_NOTE,
    part: {
      name: 'filament printer, 0.25 mm nozzle',
      process: 'filament',
      lineWidth_mm: 0.27,
      layer_mm: 0.08,
      minimumWall_mm: 0.5,
      xyError_mm: 0.04,
      xyScatter_mm: 0.05,
      holeShrink_mm: 0.15,
      ...bed,
    },
  },
  {
    id: 'printer-resin',
    note: `${PRINTER_NOTE} Uncured resin harms skin and lungs: gloves, ventilation, and the maker's safety sheet.`,
    part: {
      name: 'resin printer, 0.05 mm pixel',
      process: 'resin',
      lineWidth_mm: 0.05,
      layer_mm: 0.05,
      minimumWall_mm: 0.4,
      xyError_mm: 0.03,
      xyScatter_mm: 0.03,
      holeShrink_mm: 0.08,
      ...RESIN_PRINTING,
      bedX_mm: 143,
      bedY_mm: 89,
      bedZ_mm: 175,
    },
  },
];

function material(
  id: string,
  name: string,
  source: string,
  [density_kgpm3, modulus_GPa]: readonly [number, number],
  [strengthInPlane_MPa, strengthAcrossLayers_MPa]: readonly [number, number],
  softening_C: number,
): CatalogueEntry<Material> {
  return {
    id: `material-${id}`,
    note: source,
    part: {
      name,
      density_kgpm3,
      modulus_GPa,
      strengthInPlane_MPa,
      strengthAcrossLayers_MPa,
      softening_C,
      pricePerKg: 0,
    },
  };
}

const TRADE = 'Middle of trade tables; a print of your own may have half the strength across its layers.';

/** Print materials. Columns: [kg/m³, GPa], [MPa along, MPa across the layers], softening °C. */
export const materials: readonly CatalogueEntry<Material>[] = [
  material(
    'pla',
    'PLA (typical, trade tables)',
    `${TRADE} Goes soft in a warm car.`,
    [1240, 3.4],
    [57, 40],
    60,
  ),
  material('petg', 'PETG (typical, trade tables)', TRADE, [1270, 2.4], [50, 31], 80),
  material(
    'abs',
    'ABS (typical, trade tables)',
    `${TRADE} Strength across layers: from memory. Its fumes need ventilation.`,
    [1040, 2.1],
    [40, 24],
    107,
  ),
  material(
    'pa12',
    'PA12, powder (from memory)',
    `${FROM_MEMORY}; laser-sintered powder; softening is where its stiffness has halved.`,
    [1010, 1.7],
    [48, 42],
    95,
  ),
  material(
    'resin',
    'cured resin, rigid (from memory)',
    `${FROM_MEMORY}; brittle: watch for cracks at the root. Softening: heat-deflection of a plain grade.`,
    [1180, 2.8],
    [65, 60],
    65,
  ),
];

/** The lists together, for choosing by id. */
export const catalogue = { motors, batteries, controllers, printers, materials } as const;
