import type { Material, Printer } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import type { PartPrint, PrintSet, WayToLie } from './set.ts';

/** A lie whose score is this much better is worth turning the part for. */
const WORTH = 0.1;

/** Hours as a person says them. */
export function hoursInWords(hours: number): string {
  const minutes = Math.round(60 * hours);
  if (minutes < 1) return 'less than a minute';
  if (minutes < 60) return `${minutes} min`;
  if (minutes < 600) return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`;
  return `${n(hours)} h`;
}

/** What is down, where that has a name: seen in the fan, z downstream. */
export function downInWords({ inFan: [x, y, z] }: Pick<WayToLie, 'inFan'>, kind: PartPrint['kind']): string {
  const near = (value: number) => value > 0.999;
  if (near(z)) return 'downstream side down';
  if (near(-z)) return 'upstream side down';
  if (kind === 'blade' && near(-x)) return 'standing on its root';
  if (kind === 'blade' && near(x)) return 'standing on its tip';
  if (kind === 'blade' && Math.abs(x) < 0.05)
    return z > 0 ? 'lying, pressure side down' : 'lying, suction side down';
  const toward = n((Math.atan2(y, x) * 180) / Math.PI, 2);
  if (Math.abs(z) < 0.02) return `on its side, turned toward ${toward}°`;
  const tilt = n((Math.acos(Math.min(1, Math.abs(z))) * 180) / Math.PI, 2);
  return `${z >= 0 ? 'downstream' : 'upstream'} side turned ${tilt}° off the bed, toward ${toward}°`;
}

/** Whether another way to lie is better than the present one by enough to say so; null: not. */
export function betterWay({ now, ways }: PartPrint): WayToLie | null {
  const [best] = ways;
  return best && best.cost < now.cost - WORTH ? best : null;
}

/** How a part lies and whether another way is better, in sentences. */
export function lieSentences(part: PartPrint): string[] {
  const said = [`It lies ${downInWords(part.now, part.kind)}: ${part.now.words}`];
  if (part.ways.length === 0) return said;
  const better = betterWay(part);
  said.push(
    better
      ? `Better ${downInWords(better, part.kind)}: ${better.words}`
      : 'No other way to lay it scores better by enough to turn it.',
  );
  return said;
}

/** The whole set in sentences. */
export function setSentences(set: PrintSet, printer: Printer, material: Material): string[] {
  const cost =
    material.pricePerKg > 0
      ? `, ${set.price.toFixed(2)} of material at ${n(material.pricePerKg)} a kilogram`
      : ' (give material.pricePerKg to see what it costs)';
  const thread = set.filament_m === null ? '' : `, ${n(set.filament_m)} m of 1.75 mm filament`;
  return [
    `${set.pieces === 1 ? 'The piece' : `The ${set.pieces} pieces`}: ${n(set.mass_g)} g of ${material.name}${thread}, ${hoursInWords(set.time_h)} of printing${cost}.`,
    printer.process === 'resin'
      ? 'Resin takes its time by height: pieces that share a plate print together, so the set may take less.'
      : `Counted with ${printer.walls} walls and ${n(100 * printer.infill_ratio)} % infill, without supports and brim; time is good to about a quarter.`,
  ];
}
