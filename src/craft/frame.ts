import { holeDiameter } from '../print/fits.ts';
import type { Design } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import type { GeometryFault } from '../shape/faults.ts';
import { frameFaults, frameRefusals } from '../shape/frame-faults.ts';
import { framePlan, frameVolumes, type FrameAsk, type FramePlan, type FrameVolumes } from '../shape/frame.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import { lugPlaces } from '../shape/lugs.ts';
import { fanPlaces } from './stand.ts';

const NONE: FrameVolumes = { plate: 0, arm: 0, bridge: 0, whole: 0 };

function askOf(design: Design, layout: FanLayout): FrameAsk {
  const { craft, fan, printer } = design;
  const { frame } = craft;
  const mm = metresFromMillimetres;
  const pitch = 2 * layout.outerRadius + mm(craft.ductSpacing_mm);
  const bolt = mm(frame.bolt_mm);
  const clear = holeDiameter('clearance', bolt, printer);
  return {
    frame,
    layout,
    lugs: lugPlaces(layout, fan),
    fans: fanPlaces(craft, pitch),
    pitch,
    batteryZ: layout.rotorZ + mm(craft.batteryBelow_mm),
    holes: {
      clear,
      held: frame.fastening === 'through bolt' ? clear : holeDiameter(frame.fastening, bolt, printer),
      board: holeDiameter('clearance', mm(frame.boardHole_mm), printer),
    },
  };
}

/** One body's frame with webs that reach into the middle of the walls, as its solid is drawn. */
export function joinedPlanOf(design: Design): FramePlan | null {
  const layout = fanLayout(design.fan, design.motor);
  return framePlanOf(design, layout) && framePlan({ ...askOf(design, layout), into: layout.wall / 2 });
}

/** The frame of a project drawn; null where none is printed here or none could hold (open or leaning fans). */
export function framePlanOf(
  design: Design,
  layout: FanLayout = fanLayout(design.fan, design.motor),
): FramePlan | null {
  if (design.craft.frame.kind === 'none' || frameRefusals(design).length > 0) return null;
  return framePlan(askOf(design, layout));
}

/** What keeps the frame of a project from being built, in plain sentences. */
export function craftFrameFaults(design: Design): GeometryFault[] {
  if (design.craft.frame.kind === 'none') return [];
  const refused = frameRefusals(design);
  if (refused.length) return refused;
  const ask = askOf(design, fanLayout(design.fan, design.motor));
  return frameFaults(design, ask, framePlan(ask));
}

/** Volumes of a project's printed frame, without the ducts that one body carries [m3]; all 0 where there is none. */
export function frameVolumesOf(design: Design): FrameVolumes {
  const plan = framePlanOf(design);
  return plan ? frameVolumes(plan) : NONE;
}
