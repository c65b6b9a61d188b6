import { formatNumber } from '../../quantities/format.ts';
import type { Box } from '../mesh.ts';
import type { LayerRules } from './slice.ts';
import type { Column } from './slender.ts';
import type { Track } from './tracks.ts';
import type { CheckedPart, Finding, LayerFacts } from './types.ts';

/** A column this many times higher than wide shakes under the nozzle. Common practice, no source. */
const SLENDER = 12;

/** A part this many times higher than the root of its contact area comes off the bed easily. Common practice, no source. */
const TIPPING = 5;

/** One or two thin layers at the edge of something do not make it missing. */
const LEAST_WHOLE = 3;

/** Alike findings at several places are told once; places and sizes within this share count as alike. */
const ALIKE = 0.15;

interface Draft {
  readonly layer_mm: number;
  readonly layers: readonly LayerFacts[];
  readonly contact_mm2: number;
}

type Told = Finding & { readonly places: number };

/** Everything found, in sentences, what will not print first. */
export function findingsOf(
  part: CheckedPart,
  rules: LayerRules,
  draft: Draft,
  tracks: readonly Track[],
  columns: readonly Column[],
  missing: readonly (readonly [number, number])[],
  box: Box,
): Finding[] {
  const told = [
    ...bedFindings(part, rules, draft, box),
    ...missing.map((radius) => missingFinding(radius, rules, box)),
    ...grouped(tracks.map((track) => trackFinding(track, rules, draft, box.min[2]))),
    ...columns.flatMap((column) => slenderFinding(column)),
  ];
  const order = { stop: 0, care: 1, note: 2 };
  return told.sort(
    (a, b) =>
      order[a.weight] - order[b.weight] ||
      Number(b.aerodynamic) - Number(a.aerodynamic) ||
      b.area_mm2 - a.area_mm2,
  );
}

function bedFindings(part: CheckedPart, rules: LayerRules, draft: Draft, box: Box): Finding[] {
  const size = [0, 1, 2].map((i) => box.max[i] - box.min[i]);
  const base = {
    from_mm: 0,
    to_mm: size[2],
    at_mm: [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2] as const,
    area_mm2: draft.contact_mm2,
    width_mm: 0,
    radius_mm: null,
    aerodynamic: false,
  };
  const found: Finding[] = [];
  const turned = size[0] <= rules.bed[1] && size[1] <= rules.bed[0];
  if (((size[0] > rules.bed[0] || size[1] > rules.bed[1]) && !turned) || size[2] > rules.bed[2])
    found.push({
      ...base,
      kind: 'bed',
      weight: 'stop',
      text: `The ${part.name} measures ${size.map((s) => formatNumber(s)).join(' × ')} mm and the bed takes ${rules.bed.map((s) => formatNumber(s)).join(' × ')} mm: it does not fit. Divide it into parts, lay it otherwise, or draw it smaller.`,
    });
  const tipping = size[2] / Math.sqrt(Math.max(draft.contact_mm2, 1e-6));
  if (tipping > TIPPING)
    found.push({
      ...base,
      kind: 'contact',
      weight: 'care',
      text: `Only ${formatNumber(draft.contact_mm2)} mm² touch the bed under a height of ${formatNumber(size[2])} mm: print a brim around it, or lay it otherwise.`,
    });
  return found;
}

/** Where along its span more than half of a blade is not laid down. */
function missingFinding([from, to]: readonly [number, number], rules: LayerRules, box: Box): Finding {
  return {
    kind: 'lost',
    from_mm: 0,
    to_mm: box.max[2] - box.min[2],
    at_mm: [from, 0],
    area_mm2: 0,
    width_mm: to - from,
    radius_mm: [from, to],
    aerodynamic: true,
    weight: 'stop',
    text: `From ${formatNumber(from)} to ${formatNumber(to)} mm from the axis the blade is narrower than one line of ${formatNumber(rules.lineWidth, 2)} mm: more than half of it is not laid down. Thicken it there, or use a finer nozzle.`,
  };
}

function trackFinding(track: Track, rules: LayerRules, draft: Draft, floor: number): Told {
  const z = (layer: number) => floor + layer * draft.layer_mm;
  const [from, to] = [z(track.from), z(track.to + 1)];
  const ceiling = track.kind !== 'lost';
  const base = {
    kind: track.kind,
    from_mm: from,
    to_mm: to,
    at_mm: track.centre,
    area_mm2: ceiling ? track.total : track.most,
    width_mm: track.width,
    radius_mm: track.radius,
    aerodynamic: track.aerodynamic,
    places: 1,
  };
  const line = `${formatNumber(rules.lineWidth, 2)} mm`;
  const where = `at ${formatNumber(from, 3)} mm height`;
  const face = track.aerodynamic
    ? ' It is a face the air works on: what support leaves there costs thrust.'
    : '';
  const area = `${formatNumber(base.area_mm2, 2)} mm²`;
  const width = `${formatNumber(track.width, 2)} mm`;
  switch (track.kind) {
    case 'lost': {
      const at = track.radius
        ? `from ${formatNumber(track.radius[0])} to ${formatNumber(track.radius[1])} mm from the axis`
        : `between ${formatNumber(from)} and ${formatNumber(to)} mm height`;
      return track.wholeLayers >= Math.max(LEAST_WHOLE, (track.to - track.from + 1) / 2) && !track.radius
        ? {
            ...base,
            weight: 'stop',
            text: `Something ${at} is narrower than one line of ${line} and is not laid down at all.`,
          }
        : {
            ...base,
            weight: 'care',
            text: `An edge ${at} is narrower than one line of ${line}: about ${width} of it is not laid down.`,
          };
    }
    case 'island':
      return {
        ...base,
        weight: 'care',
        text: `A piece of ${area} begins in the air ${where}; it needs support under it.${face}`,
      };
    case 'bridge':
      return track.width <= rules.bridge
        ? {
            ...base,
            weight: 'note',
            text: `A ceiling of ${area} ${where} is spanned free over ${width}; this printer bridges up to ${formatNumber(rules.bridge)} mm.`,
          }
        : {
            ...base,
            weight: 'care',
            text: `A ceiling of ${area} ${where} spans ${width}, more than the ${formatNumber(rules.bridge)} mm this printer bridges: it sags or needs support.${face}`,
          };
    default: {
      const hangs = track.width > 2 * rules.lineWidth;
      const between = `From ${formatNumber(from)} to ${formatNumber(to)} mm height`;
      return {
        ...base,
        weight: hangs ? 'care' : 'note',
        text: hangs
          ? `${between} a face hangs out by up to ${width} a layer, ${area} of it beyond what the layers below carry; it needs support.${face}`
          : `${between} a face leans past ${formatNumber(rules.overhang_deg)}°, ${area} of it beyond what the layers below carry; it prints rough.${face}`,
      };
    }
  }
}

function slenderFinding(column: Column): Finding[] {
  const height = column.to - column.from;
  if (height < SLENDER * column.width) return [];
  return [
    {
      kind: 'slender',
      from_mm: column.from,
      to_mm: column.to,
      at_mm: column.centre,
      area_mm2: 0,
      width_mm: column.width,
      radius_mm: null,
      aerodynamic: false,
      weight: 'care',
      text: `A column ${formatNumber(column.width, 2)} mm wide goes up ${formatNumber(height)} mm by itself: it shakes under the nozzle. Print it slowly, or tie it to something.`,
    },
  ];
}

/** Tells alike findings (one on each blade, say) once, with their number. */
function grouped(found: readonly Told[]): Finding[] {
  const groups: Told[] = [];
  for (const one of found) {
    const like = groups.findIndex(
      (other) =>
        other.kind === one.kind &&
        other.weight === one.weight &&
        other.aerodynamic === one.aerodynamic &&
        alike(other.from_mm, one.from_mm, one.to_mm) &&
        alike(other.area_mm2 / other.places, one.area_mm2, one.area_mm2),
    );
    if (like < 0) groups.push(one);
    else {
      const other = groups[like];
      groups[like] = { ...other, places: other.places + 1, area_mm2: other.area_mm2 + one.area_mm2 };
    }
  }
  return groups.map(({ places, ...finding }) =>
    places === 1 ? finding : { ...finding, text: `At ${places} places: ${lowerFirst(finding.text)}` },
  );
}

const alike = (a: number, b: number, scale: number) => Math.abs(a - b) <= ALIKE * Math.max(scale, 1e-9);

const lowerFirst = (text: string) => text[0].toLowerCase() + text.slice(1);
