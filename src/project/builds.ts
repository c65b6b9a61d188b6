import { buildSchema, designSchema, type Build, type Design, type Project } from './schema.ts';
import { shorten, type FieldError } from './words.ts';

/** What a build freezes: everything made or bought, without the brief and the notes. */
export function designOf(project: Project): Design {
  const keys = Object.keys(designSchema.shape) as (keyof typeof designSchema.shape)[];
  return Object.fromEntries(keys.map((key) => [key, project[key]])) as Design;
}

/** The project as it was in one of its builds, or an error that lists the builds there are. */
export function withBuild(
  project: Project,
  id: string,
):
  | { readonly ok: true; readonly project: Project; readonly build: Build }
  | { readonly ok: false; readonly error: FieldError } {
  const build = project.builds.find((b) => b.id === id);
  if (build) return { ok: true, project: { ...project, ...build.design }, build };
  const ids = project.builds.map((b) => `"${b.id}"`).join(', ');
  const there = ids === '' ? 'the file has no builds' : `the file has ${ids}`;
  return {
    ok: false,
    error: { path: 'builds', message: `There is no build "${shorten(id, 60)}"; ${there}.` },
  };
}

/** The design as it stands, written down as the next build; its key is the first of build-1, build-2, ... that is free. */
export function frozenBuild(
  project: Project,
  given: {
    readonly date: string;
    readonly name?: string;
    readonly why?: string;
    readonly state?: Build['state'];
  },
): Build {
  const taken = new Set(project.builds.map(({ id }) => id));
  let number = project.builds.length + 1;
  while (taken.has(`build-${number}`)) number++;
  return buildSchema.parse({
    id: `build-${number}`,
    name: `Build ${number}`,
    ...given,
    design: designOf(project),
  });
}
