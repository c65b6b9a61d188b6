import { assess } from '../assess/assess.ts';
import type { Project } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { fanLayout } from '../shape/layout.ts';
import { assemble, type Assembly } from './assembly.ts';
import { checkFit, type FitCheck, type FitOptions } from './interference.ts';
import type { Kernel } from './kernel.ts';
import type { Made } from './make.ts';

/**
 * Puts a made project together and checks how closely it fits. Without a `growth` [m] the rotor grows as the strength room
 * says for full throttle on a full battery; warmth and creep are in neither.
 */
export function checkProject(
  kernel: Kernel,
  project: Project,
  made: Made,
  options: Pick<FitOptions, 'growth' | 'near_mm'> = {},
): { readonly assembly: Assembly; readonly fit: FitCheck } {
  const assembly = assemble(project, made);
  const growth =
    options.growth ?? metresFromMillimetres(assess(project).strength?.growth.full.radial_mm ?? 0);
  const layout = fanLayout(project.fan, project.motor);
  const fit = checkFit(kernel, assembly, {
    ...options,
    growth: Number.isFinite(growth) ? Math.max(0, growth) : 0,
    tipRadius: layout.tipRadius,
    bladeCount: project.fan.bladeCount,
  });
  return { assembly, fit };
}
