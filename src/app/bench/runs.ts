import { benchRowSchema, benchRunSchema, type BenchRow, type BenchRun } from '../../project/bench.ts';
import { frozenBuild } from '../../project/builds.ts';
import type { Build, Project } from '../../project/schema.ts';

/** A run with the next free key of its build; the rig of the one before it, if there is one. */
export function nextRun(build: Pick<Build, 'bench'>, date: string, given: Partial<BenchRun> = {}): BenchRun {
  const taken = new Set(build.bench.map(({ id }) => id));
  let number = build.bench.length + 1;
  while (taken.has(`run-${number}`)) number++;
  const before = build.bench.at(-1);
  return benchRunSchema.parse({
    id: `run-${number}`,
    name: `Run ${number}`,
    date,
    ...(before ? { rig: before.rig, air: before.air } : {}),
    ...given,
  });
}

/** The project with a run more in a build; without that build the design as it stands is written down as one. */
export function withRun(
  project: Project,
  buildId: string | null,
  date: string,
  given: Partial<BenchRun> = {},
): { readonly project: Project; readonly build: string; readonly run: string } {
  const known = project.builds.find(({ id }) => id === buildId);
  const build = known ?? frozenBuild(project, { date, state: 'made' });
  const run = nextRun(build, date, given);
  const after: Build = { ...build, state: 'made', bench: [...build.bench, run] };
  return {
    project: {
      ...project,
      builds: known ? project.builds.map((b) => (b === known ? after : b)) : [...project.builds, after],
    },
    build: build.id,
    run: run.id,
  };
}

/** What the entry reads, in the order of its fields. */
export const READ = [
  { key: 'throttle', label: 'Throttle', unit: '%', min: 0, max: 100, factor: 0.01 },
  { key: 'scale_g', label: 'Scale', unit: 'g', min: -1e6, max: 1e6, factor: 1 },
  { key: 'voltage_V', label: 'Voltage', unit: 'V', min: -1, max: 1000, factor: 1 },
  { key: 'current_A', label: 'Current', unit: 'A', min: -50, max: 5000, factor: 1 },
  { key: 'rpm', label: 'Speed', unit: 'rpm', min: 0, max: 500_000, factor: 1 },
] as const;
export type ReadKey = (typeof READ)[number]['key'];

/** What was typed into the entry as a row, or the field that is wrong and why. */
export function rowFrom(
  typed: Readonly<Partial<Record<ReadKey, string>>>,
):
  | { readonly ok: true; readonly row: BenchRow }
  | { readonly ok: false; readonly key: ReadKey; readonly why: string } {
  const values: Partial<Record<ReadKey, number>> = {};
  for (const { key, label, unit, min, max, factor } of READ) {
    const text = (typed[key] ?? '').trim();
    if (text === '') continue;
    const value = /^[-+−]?(\d+([.,]\d*)?|[.,]\d+)$/.test(text)
      ? Number(text.replace('−', '-').replace(',', '.'))
      : Number.NaN;
    if (!(value >= min && value <= max))
      return {
        ok: false,
        key,
        why: `${label} is "${text.slice(0, 20)}"; it takes a number from ${min} to ${max} ${unit}.`,
      };
    if (key === 'throttle' && value > 0 && value < 1)
      return { ok: false, key, why: `Throttle is in percent: write ${value * 100} for ${value} of full.` };
    values[key] = Number((value * factor).toPrecision(12));
  }
  if (values.scale_g === undefined)
    return { ok: false, key: 'scale_g', why: 'The scale is empty; a reading needs what it shows, in g.' };
  return { ok: true, row: benchRowSchema.parse({ ...values, atRest: values.throttle === 0 }) };
}

/** The throttle to read next: from rest up in tenths to full, and down to rest. */
export function nextThrottle(rows: readonly BenchRow[]): string {
  const last = rows.at(-1)?.throttle;
  if (last === undefined || last === null) return rows.length === 0 ? '0' : '';
  if (last >= 0.999) return '0';
  if (last === 0) return rows.length === 1 ? '20' : '';
  return String(Math.min(100, Math.round(last * 10 + 1.0001) * 10));
}

/** Today, as a run is dated. */
export const today = (): string => new Date().toISOString().slice(0, 10);
