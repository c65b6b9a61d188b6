import type { Divisions } from '../make/layers/divisions.ts';
import type { PartPrint, PrintSet } from '../make/layers/set.ts';
import { downInWords, hoursInWords, lieSentences, setSentences } from '../make/layers/set-words.ts';
import type { Finding } from '../make/layers/types.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { bullet, columns, wrap } from './text.ts';

/** How a finding weighs, as the other commands say it. */
const MARK: Record<Finding['weight'], string> = { stop: '- Stop: ', care: '- Mind: ', note: '- ' };

/** The set read layer by layer, as text. */
export function layersText(project: Project, set: PrintSet, divisions: Divisions | null): string {
  const stops = set.parts.filter(({ check }) => check.findings.some(({ weight }) => weight === 'stop'));
  const verdict =
    stops.length > 0
      ? `Will not print as it is: ${stops.map(({ name }) => name).join(', ')}.`
      : 'Nothing is lost that would stop a print.';
  return (
    `${project.name}: layers of ${n(set.layer_mm, 2)} mm, lines of ${n(project.printer.lineWidth_mm, 2)} mm, ${project.printer.name}\n\n` +
    wrap(verdict) +
    '\n' +
    columns(
      [
        ['part', 'pieces', 'each', 'time', 'on the bed', 'overhang', 'of it on air faces'],
        ...set.parts.map(({ id, quantity, print, check }) => [
          id,
          String(quantity),
          `${n(print.mass_g)} g`,
          hoursInWords(print.time_h),
          `${n(check.contact_mm2)} mm²`,
          `${n(check.overhang_mm2)} mm²`,
          `${n(check.overhangAerodynamic_mm2)} mm²`,
        ]),
      ],
      [0],
    ) +
    distinct(set.parts).map(partText).join('') +
    (divisions ? divisionsText(divisions) : '') +
    '\nMaterial and time\n' +
    setSentences(set, project.printer, project.material)
      .map((text) => wrap(text, '  '))
      .join('')
  );
}

/** A mirrored part has the findings of its twin. */
const distinct = (parts: readonly PartPrint[]) =>
  parts.filter((part, i) => parts.findIndex((other) => other.check === part.check) === i);

function partText(part: PartPrint): string {
  const { check, ways, kind } = part;
  const listed =
    ways.length > 0
      ? columns(
          [
            ['', 'way to lie', 'score', ''],
            ...ways.map((way, i) => [
              String(i + 1),
              downInWords(way, kind),
              n(way.cost, 3),
              way.down[2] < -0.9998 ? 'as it lies' : '',
            ]),
          ],
          [0, 1, 3],
        )
      : '';
  return (
    `\n${part.name} (${part.id})\n` +
    (check.findings.length > 0
      ? check.findings.map(({ weight, text }) => bullet(text, MARK[weight])).join('')
      : wrap('Prints without a remark.', '  ')) +
    lieSentences(part)
      .map((text) => wrap(text, '  '))
      .join('') +
    listed
  );
}

function divisionsText({ words, refused }: Divisions): string {
  return (
    '\nWays to divide the craft\n' +
    words.map((text) => bullet(text)).join('') +
    refused
      .map(({ name, why }) => bullet(`${name[0].toUpperCase()}${name.slice(1)}: cannot be built. ${why}`))
      .join('')
  );
}
