import { assess } from '../assess/assess.ts';
import { withBuild } from '../project/builds.ts';
import { PLAIN_CALIBRATION } from '../project/calibration.ts';
import type { Build, Project } from '../project/schema.ts';
import type { Interval } from '../quantities/interval.ts';
import { reduceRun } from './reduce.ts';

/** One build as it was foretold and as the bench found it. Thrust over weight at full throttle, 90 % intervals. */
export interface BuildRecord {
  readonly id: string;
  /** As drawn, with nothing the bench taught. */
  readonly asDrawn: Interval;
  /** With what the bench has taught about this build, its faults too; the same where it has taught nothing. */
  readonly asLearned: Interval;
  readonly mass_g: number;
  /** From the latest run that says something of full throttle; `run`: its name. */
  readonly measured: {
    readonly thrustToWeight: Interval;
    readonly extrapolated: boolean;
    readonly run: string;
  } | null;
  readonly runs: number;
}

/** All builds of a project, oldest first. */
export const buildRecords = (project: Project): BuildRecord[] =>
  project.builds.map((build) => recordOf(project, build));

function recordOf(project: Project, build: Build): BuildRecord {
  const found = withBuild(project, build.id);
  const at = { ...(found.ok ? found.project : project), builds: [] };
  const learned = assess(at);
  const drawn = assess({ ...at, calibration: PLAIN_CALIBRATION });
  const measured = build.bench.flatMap((run) => {
    const share = reduceRun(at, run).hoverShare;
    return share?.fullThrottle
      ? [
          {
            thrustToWeight: share.fullThrottle,
            extrapolated: share.extrapolated,
            run: run.name === '' ? run.id : run.name,
          },
        ]
      : [];
  });
  return {
    id: build.id,
    asDrawn: drawn.craft.thrustToWeightInterval,
    asLearned: learned.craft.thrustToWeightInterval,
    mass_g: learned.craft.mass_g,
    measured: measured.at(-1) ?? null,
    runs: build.bench.length,
  };
}
