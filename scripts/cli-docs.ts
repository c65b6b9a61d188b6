/** Writes docs/cli.md from the help texts of the command line: `node scripts/cli.mjs --run scripts/cli-docs.ts`. */
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { run } from '../src/cli/run.ts';

const COMMANDS = ['new', 'check', 'assess', 'design', 'make', 'fan', 'motor', 'size', 'craft', 'buy'];

/** The page, as it should stand in docs/cli.md. */
export async function renderCliDocs(): Promise<string> {
  const help = async (...args: string[]) => {
    let text = '';
    await run([...args, '--help'], { out: (part) => void (text += part), err: () => {} });
    return '```text\n' + text.trimEnd() + '\n```\n';
  };
  const parts = [
    '# The command line\n',
    'Made from the help texts by `scripts/cli-docs.ts`; a test holds the two together.\n',
    'From a clone: `npm run --silent cli -- assess FILE`. Installed: `fanwright assess FILE` or `npx fanwright assess FILE`.\n',
    await help(),
  ];
  for (const command of COMMANDS) parts.push(`## fanwright ${command}\n`, await help(command));
  return parts.join('\n');
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  writeFileSync(new URL('../docs/cli.md', import.meta.url), await renderCliDocs());
  console.log('wrote docs/cli.md');
}
