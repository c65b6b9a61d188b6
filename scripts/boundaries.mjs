/** Checks that each room of src/ imports only from rooms above it, and says which rule was broken. */
import { cruise } from 'dependency-cruiser';
import { faces, keptIn, rooms } from './rooms.mjs';

const forbidden = [
  ...rooms.map((room, i) => ({
    name: `src/${room} may import only from ${i ? rooms.slice(0, i).join(', ') : 'nothing above it'}`,
    severity: 'error',
    from: { path: `^src/${room}/`, pathNot: '\\.test\\.tsx?$' },
    to: { path: '^src/', pathNot: `^src/(${rooms.slice(0, i + 1).join('|')})/` },
  })),
  ...faces.map((face) => ({
    name: `src/${face} may not import another face`,
    severity: 'error',
    from: { path: `^src/${face}/` },
    to: { path: `^src/(${faces.filter((f) => f !== face).join('|')})/` },
  })),
  ...Object.entries(keptIn).map(([name, homes]) => ({
    name: `${name} is imported only in src/${homes.join(' and src/')}`,
    severity: 'error',
    from: { path: '^src/', pathNot: `^src/(${homes.join('|')})/|\\.test\\.tsx?$` },
    to: { path: `^node_modules/${name}/` },
  })),
  {
    name: 'disk and process belong in src/cli',
    severity: 'error',
    from: { path: '^src/', pathNot: '^src/cli/|\\.test\\.tsx?$' },
    to: { dependencyTypes: ['core'] },
  },
  { name: 'no import cycles', severity: 'error', from: {}, to: { circular: true } },
];

const { output } = await cruise(['src'], {
  ruleSet: { forbidden },
  tsPreCompilationDeps: true,
  doNotFollow: { path: 'node_modules' },
  tsConfig: { fileName: 'tsconfig.json' },
  enhancedResolveOptions: { extensions: ['.ts', '.tsx', '.js', '.mjs', '.json'] },
  validate: true,
});

const { violations, totalCruised, totalDependenciesCruised } = output.summary;
if (totalCruised < 20 || totalDependenciesCruised < 20) {
  console.error(`boundaries: saw only ${totalCruised} modules; the check itself is broken`);
  process.exit(1);
}
for (const v of violations) console.error(`${v.from} -> ${v.to}\n  breaks the rule: ${v.rule.name}`);
if (violations.length) process.exit(1);
console.log(`boundaries: ${totalCruised} modules, ${totalDependenciesCruised} imports, no rule broken`);
