import type { Project } from '../project/schema.ts';
import type { BoughtUnit, PrintCosts } from './make-or-buy.ts';

/** The prices a project file holds; a price of 0 there is one not said. */
export function costsOf({ purchases, material }: Project): PrintCosts {
  return {
    currency: purchases.currency,
    material_perKg: material.pricePerKg,
    motor_each: purchases.motorPrice,
    controller_each: purchases.controllerPrice,
    printer_perHour: purchases.printerHourPrice,
    scrap_ratio: purchases.scrap_ratio,
    rate_mm3ps: purchases.laidDown_mm3ps,
    handsOn_h: purchases.handsOn_h,
    labour_perHour: purchases.labourHourPrice,
  };
}

/** The bought units a project file holds. */
export const boughtOf = ({ purchases }: Project): readonly BoughtUnit[] => purchases.units;
