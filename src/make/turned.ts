import type { Profile } from '../shape/profiles.ts';
import { withSolids, type Kernel, type Solid } from './kernel.ts';

/** A profile [m] turned about the axis, as a solid [mm]; the caller frees it. */
export function turned(kernel: Kernel, profile: Profile, segments: number): Solid {
  return withSolids((keep) => {
    const section = keep(new kernel.CrossSection([profile.map(([z, r]) => [1e3 * r, 1e3 * z])]));
    return section.revolve(segments);
  });
}
