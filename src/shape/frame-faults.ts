import type { Design } from '../project/schema.ts';
import { formatNumber } from '../quantities/format.ts';
import { metresFromMillimetres, millimetresFromMetres } from '../quantities/units.ts';
import type { GeometryFault } from './fault.ts';
import { lugsFor, lugsSuit, stripsAt } from './frame-hang.ts';
import type { FrameAsk, FramePlan, Hole } from './frame.ts';

/** Least material between two holes, and beside a hole in a strip [m]. Common practice, no source. */
const LEAST_WEB = 0.0008;
const LEAST_SIDE = 0.0015;

/** Plastic an insert or a cut thread needs to hold, in thread sizes. Common practice, no source. */
const HOLD_THREADS = 1.5;

/** Highest rails that still carry a battery without rocking [m]. Common practice, no source. */
const MOST_RAIL = 0.06;

/** Thinnest strip of a bridge between its two hollows [m]. */
const LEAST_BRIDGE = 0.001;

const mm = (length: number, figures = 3): string =>
  `${formatNumber(millimetresFromMetres(length), figures)} mm`;
/** Rounded up to a tenth, so that the value in the sentence does. */
const upTo = (length: number): string => formatNumber(Math.ceil(millimetresFromMetres(length) * 10) / 10, 3);

/** What keeps a frame from holding at all, whatever its sizes: found before it is drawn. */
export function frameRefusals({ craft, fan }: Design): GeometryFault[] {
  const faults: GeometryFault[] = [];
  const { frame } = craft;
  const add = (path: string, text: string) => faults.push({ path, text });
  if (fan.kind === 'open')
    add(
      'craft.frame.kind',
      'A printed frame is joined to the ducts, and an open fan has none. Set it to none.',
    );
  if (Math.abs(craft.tilt_deg) > 1e-9)
    add(
      'craft.tilt_deg',
      `A printed frame holds the fans upright, and these lean by ${formatNumber(craft.tilt_deg)} degrees. A lean of 0, or no printed frame, would do.`,
    );
  if (frame.kind === 'one body' && (fan.duct.rings > 1 || fan.duct.lipApart || fan.duct.lugCount > 0))
    add(
      'craft.frame.kind',
      'One body carries each duct whole and without lugs. Set fan.duct.rings to 1, fan.duct.lipApart to no and fan.duct.lugCount to 0, or choose the modular frame.',
    );
  return faults;
}

/** What does not fit in a frame as drawn, in plain sentences; empty where everything does. */
export function frameFaults(design: Design, ask: FrameAsk, plan: FramePlan): GeometryFault[] {
  const refused = frameRefusals(design);
  if (refused.length) return refused;
  const hung = hangFaults(design, ask, plan);
  if (hung.length) return hung;
  return [
    ...(plan.kind === 'modular' ? screwFaults(design, ask, plan) : bodyFaults(ask, plan)),
    ...bayFaults(design, ask, plan),
    ...holeFaults(plan),
    ...bedFaults(design, plan),
  ];
}

function hangFaults({ fan }: Design, { fans }: FrameAsk, plan: FramePlan): GeometryFault[] {
  if (fans.length === 1 || plan.hangs.length < fans.length)
    return [
      {
        path: 'craft.layout',
        text: 'A fan stands in the middle, where the plate of the frame would be. A ring of fans, an even row or two even rows would do.',
      },
    ];
  if (plan.kind === 'one body') return [];
  const strips = stripsAt(plan.hangs);
  const { lugCount } = fan.duct;
  if (lugCount > 0 && lugsSuit(strips, lugCount)) return [];
  const needed = lugsFor(strips, lugCount);
  const most = Math.max(...strips.map((at) => at.length));
  const text = needed
    ? `The frame meets each duct at ${most === 1 ? 'one lug' : `up to ${most} lugs`}, and the ducts have ${lugCount === 0 ? 'none' : `${lugCount}, in other directions`}. ${needed === 1 ? '1 lug' : `${needed} lugs`} would do.`
    : 'No even number of lugs faces every strip of this layout. Another layout, or one body, would do.';
  return [{ path: 'fan.duct.lugCount', text }];
}

function screwFaults({ craft, fan }: Design, ask: FrameAsk, plan: FramePlan): GeometryFault[] {
  const faults: GeometryFault[] = [];
  const add = (path: string, text: string) => faults.push({ path, text });
  const { frame } = craft;
  if (frame.bolt_mm !== fan.duct.lugHole_mm)
    add(
      'craft.frame.bolt_mm',
      `The frame takes M${frame.bolt_mm} screws and the lugs of the ducts M${fan.duct.lugHole_mm}. Set both to the same.`,
    );
  const thickness = metresFromMillimetres(frame.plate_mm);
  const lug = ask.lugs[0];
  if (lug.topZ - thickness < lug.freeTopZ)
    add(
      'craft.frame.plate_mm',
      `The strips are ${mm(thickness)} thick and there is ${mm(lug.topZ - lug.freeTopZ)} between the lugs and the lip. A thinner plate, or shorter vanes, would do.`,
    );
  const hold = HOLD_THREADS * metresFromMillimetres(frame.bolt_mm);
  if (frame.fastening !== 'through bolt' && thickness < hold)
    add(
      'craft.frame.plate_mm',
      `A ${frame.fastening === 'heat-set insert' ? 'heat-set insert' : 'thread cut in the plastic'} for M${frame.bolt_mm} needs ${mm(hold)} to hold. A plate that thick, or through bolts, would do.`,
    );
  const across = 2 * LEAST_SIDE + Math.max(ask.holes.held, ask.holes.clear);
  if (metresFromMillimetres(frame.armWidth_mm) < across)
    add(
      'craft.frame.armWidth_mm',
      `Strips of ${formatNumber(frame.armWidth_mm)} mm leave too little beside their holes. ${upTo(across)} mm or more would do.`,
    );
  if (plan.bridge && ask.pitch / 2 - plan.keepOut < LEAST_BRIDGE)
    add(
      'craft.ductSpacing_mm',
      `The walls of two neighbours leave ${mm(Math.max(0, ask.pitch - 2 * plan.keepOut))} for the bridge between them. ${upTo(spacingFor(ask, 2 * (plan.keepOut + LEAST_BRIDGE)))} mm or more would do.`,
    );
  return faults;
}

/** Gap between the rims [m] that sets neighbours `pitch` apart. */
const spacingFor = ({ layout }: FrameAsk, pitch: number): number => pitch - 2 * layout.outerRadius;

function bodyFaults({ layout, batteryZ }: FrameAsk, { plate }: FramePlan): GeometryFault[] {
  if (plate.topZ >= 0 && plate.bottomZ <= layout.exitZ) return [];
  const below = (bottomZ: number) =>
    formatNumber(millimetresFromMetres(batteryZ + bottomZ - plate.bottomZ - layout.rotorZ), 3);
  return [
    {
      path: 'craft.batteryBelow_mm',
      text: `The plate lies on the battery, ${plate.topZ < 0 ? 'above' : 'below'} the straight walls it joins. ${below(plate.bottomZ - plate.topZ)} to ${below(layout.exitZ)} mm would do.`,
    },
  ];
}

function bayFaults({ craft }: Design, ask: FrameAsk, plan: FramePlan): GeometryFault[] {
  const faults: GeometryFault[] = [];
  const { frame, batteryBelow_mm } = craft;
  if (plan.railHeight < -1e-9 || plan.railHeight > MOST_RAIL) {
    const [from, to] = [0, MOST_RAIL].map((height) =>
      formatNumber(batteryBelow_mm + millimetresFromMetres(height - plan.railHeight), 3),
    );
    faults.push({
      path: 'craft.batteryBelow_mm',
      text: `The battery hangs under the plate, whose lower face lies ${mm(Math.abs(plan.railHeight))} ${plan.railHeight < 0 ? 'below' : 'above'} its upper side. ${from} to ${to} mm would do.`,
    });
  }
  const short = intrusion(ask.fans, plan);
  if (short > 1e-6) {
    const spacing = spacingFor(ask, pitchFor(ask, plan));
    faults.push({
      path: 'craft.frame.bayLength_mm',
      text: `The plate for a bay of ${formatNumber(frame.bayLength_mm)} by ${formatNumber(frame.bayWidth_mm)} mm reaches ${mm(short, 2)} into a duct. A smaller bay, or a craft.ductSpacing_mm of ${upTo(spacing)} or more, would do.`,
    });
  }
  return faults;
}

/** How far the middle of the plate reaches into the room of the nearest fan [m]. */
function intrusion(fans: FrameAsk['fans'], { pad, keepOut }: FramePlan): number {
  return Math.max(
    ...fans.map(({ x, y }) => {
      const [dx, dy] = [Math.abs(x) - pad.halfLength, Math.abs(y) - pad.halfWidth];
      return keepOut - Math.hypot(Math.max(0, dx), Math.max(0, dy));
    }),
  );
}

/** Pitch at which the plate is clear of every duct [m]: where the fans stand grows with it. */
function pitchFor({ fans, pitch }: FrameAsk, plan: FramePlan): number {
  const at = (scale: number) =>
    intrusion(
      fans.map(({ x, y }) => ({ x: x * scale, y: y * scale })),
      plan,
    );
  let [low, high] = [1, 2];
  while (at(high) > 0 && high < 64) high *= 2;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (at(middle) > 0) low = middle;
    else high = middle;
  }
  return pitch * high;
}

function holeFaults({ plate }: FramePlan): GeometryFault[] {
  const { holes, slots } = plate;
  const near = (a: Hole, b: Hole) => Math.hypot(a.x - b.x, a.y - b.y) - a.radius - b.radius < LEAST_WEB;
  const meet =
    holes.some((a, i) => holes.slice(i + 1).some((b) => near(a, b))) ||
    holes.some((hole) =>
      slots.some(({ x, y, length, width }) => {
        const [dx, dy] = [Math.abs(hole.x - x) - length / 2, Math.abs(hole.y - y) - width / 2];
        return Math.hypot(Math.max(0, dx), Math.max(0, dy)) - hole.radius < LEAST_WEB;
      }),
    );
  if (!meet) return [];
  return [
    {
      path: 'craft.frame.boardSpacing_mm',
      text: 'Holes or strap slots in the plate run into each other. Another distance of the board’s holes, another bay, or ducts farther apart (craft.ductSpacing_mm) would do.',
    },
  ];
}

function bedFaults({ printer }: Design, { plate, arm, bridge, kind }: FramePlan): GeometryFault[] {
  // One body is shown with its size whether it fits or not: that is what speaks for or against it.
  if (kind === 'one body') return [];
  const faults: GeometryFault[] = [];
  const bed = [printer.bedX_mm, printer.bedY_mm].map(metresFromMillimetres).sort((a, b) => a - b);
  const check = (what: string, points: readonly (readonly [number, number])[], wouldDo: string) => {
    const size = [0, 1]
      .map((i) => Math.max(...points.map((p) => p[i])) - Math.min(...points.map((p) => p[i])))
      .sort((a, b) => a - b);
    if (size[0] > bed[0] || size[1] > bed[1])
      faults.push({
        path: 'craft.frame.kind',
        text: `The ${what} of the frame measures ${mm(size[1])} by ${mm(size[0])}, more than the bed of ${mm(bed[1])} by ${mm(bed[0])}. ${wouldDo}`,
      });
  };
  check('plate', plate.outline, 'A smaller bay, or ducts closer together, would do.');
  if (arm) check('arm', arm.outline, 'Ducts closer together, or a larger plate, would do.');
  if (bridge) check('bridge', bridge.outline, 'Ducts closer together would do.');
  return faults;
}
