import { degreesFromRadians } from '../src/quantities/units.ts';
import { formatNumber, formatPercent } from '../src/quantities/format.ts';
import { zeroLiftPerCamber } from '../src/air/section.ts';
import { median, type Check, type Picture, type Summary, type Topic } from './check.ts';
import { sectionPoints, SECTIONS, type MeasuredSection, type SectionPoint } from './section-data.ts';
import { SECTION_MISSES } from './section-misses.ts';

const TUNNEL: Readonly<Record<string, string>> = {
  'flat-plate': 'Selig, Donovan and Fraser, Airfoils at Low Speeds, SoarTech 8, 1989; wind-tunnel polars.',
  bw3: 'Selig and others, Summary of Low-Speed Airfoil Data, volume 3, University of Illinois; wind-tunnel polars.',
};
const VOLUME_1 =
  'Selig and others, Summary of Low-Speed Airfoil Data, volume 1, University of Illinois; wind-tunnel polars.';

type Name = 'Cl' | 'Cd';

const thousands = (re: number): string => `${Math.floor(re / 1000)} ${String(re % 1000).padStart(3, '0')}`;

const isAttached = ({ attached: [low, high] }: MeasuredSection, { alpha_deg }: SectionPoint): boolean =>
  alpha_deg >= low && alpha_deg <= high;

function curve(section: MeasuredSection, reynolds: number, name: Name): Check {
  const id = `section-${section.id}-${reynolds}-${name.toLowerCase()}`;
  return {
    id,
    title: `${name}, ${section.words}${section.fitted ? '' : ' (held back from the fit)'}, Re ${thousands(reynolds)}`,
    unit: '',
    source: TUNNEL[section.id] ?? VOLUME_1,
    status: 'read',
    points: () =>
      sectionPoints(section)
        .filter((point) => point.reynolds === reynolds && isAttached(section, point))
        .map((p) => ({
          at: `${p.alpha_deg}°`,
          x: p.alpha_deg,
          ours: name === 'Cl' ? p.ourCl : p.ourCd,
          theirs: name === 'Cl' ? p.cl : p.cd,
        })),
    target: name === 'Cl' ? { absolute: 0.05 } : { relative: 0.15 },
    judged: 'median',
    missed: SECTION_MISSES[id],
    axis: 'angle of attack [°]',
    inPicture: true,
  };
}

/** The whole measured polar, past stall too. */
function picture(section: MeasuredSection, name: Name): Picture {
  const points = sectionPoints(section);
  return {
    id: `section-${section.id}-${name.toLowerCase()}`,
    title: `${name}, ${section.words}, computed and measured`,
    xLabel: 'angle of attack [°]',
    yLabel: `${name}, ${section.words}${section.fitted ? '' : ' (held back)'}`,
    series: section.reynolds.flatMap((reynolds, colour) => {
      const at = points.filter((p) => p.reynolds === reynolds).sort((a, b) => a.alpha_deg - b.alpha_deg);
      const drawn = (value: (p: SectionPoint) => number) => at.map((p) => ({ x: p.alpha_deg, y: value(p) }));
      const words = `Re ${thousands(reynolds)}`;
      return [
        {
          name: `${words}: line computed, circles measured`,
          kind: 'line' as const,
          colour,
          points: drawn((p) => (name === 'Cl' ? p.ourCl : p.ourCd)),
        },
        {
          name: '',
          kind: 'circles' as const,
          colour,
          points: drawn((p) => (name === 'Cl' ? p.cl : p.cd)),
        },
      ];
    }),
  };
}

const BANDS = [
  [40_000, 80_000, '59 000 to 61 000'],
  [80_000, 150_000, '100 000 (plate alone)'],
  [150_000, 300_000, '199 000 to 202 000'],
] as const;

const rms = (list: readonly number[]): number =>
  Math.sqrt(list.reduce((sum, x) => sum + x * x, 0) / list.length);

/** What the form is off by, by band of Reynolds number: the spread to expect of it. */
function spread(): Summary {
  const all = SECTIONS.flatMap((section) =>
    sectionPoints(section).map((p) => ({ ...p, section, attached: isAttached(section, p) })),
  );
  const line = (band: string, angles: string, among: typeof all): string[] => [
    band,
    angles,
    String(among.length),
    formatNumber(rms(among.map((p) => p.ourCl - p.cl)), 2),
    formatNumber(rms(among.map((p) => Math.log(p.ourCd / p.cd))), 2),
    formatNumber(median(among.map((p) => Math.abs(p.ourCl - p.cl))), 2),
    formatPercent(median(among.map((p) => Math.abs(p.ourCd / p.cd - 1))), 1),
  ];
  const rows = BANDS.flatMap(([low, high, words]) => {
    const band = all.filter(({ reynolds }) => reynolds >= low && reynolds < high);
    return [
      line(
        words,
        'attached',
        band.filter((p) => p.attached),
      ),
      line(words, 'all measured', band),
    ];
  });
  const heldBack = all.filter(({ section }) => !section.fitted);
  return {
    title:
      'Spread of the form by Reynolds number, all sections together: root mean square (rms) of the error of Cl and of ln Cd (0.2 is about a fifth), and medians. Below 59 000 no polar was at hand; there the spread of the rotors in the next topic stands in.',
    head: ['Reynolds number', 'angles', 'points', 'rms Cl', 'rms ln Cd', 'median Cl', 'median Cd'],
    rows: [
      ...rows,
      line(
        'all',
        'attached',
        all.filter((p) => p.attached),
      ),
      line(
        'E387 alone, held back',
        'attached',
        heldBack.filter((p) => p.attached),
      ),
    ],
  };
}

export const sectionTopic: Topic = {
  id: 'sections',
  title: 'Blade sections in a wind tunnel',
  intro: [
    'Lift and drag of four sections, each at two Reynolds numbers; the median error over the angles at which the measured flow is attached is judged, the',
    'pictures go on past the stall. Flat plate, BW-3 and NACA 6409 were in the fit of the constants, so they show what the form can take up; **E387 was held back',
    'and is the test**. Thickness and camber of plate and BW-3 are from memory, those of E387 rounded. In the pictures the computed line joins the measured angles.',
  ].join('\n'),
  checks: [
    {
      id: 'section-zero-lift',
      title: 'Zero-lift angle by thin-section theory',
      unit: '°',
      source:
        'Thin-section theory for the NACA four-digit mean line of 2 % camber at 40 % chord; worked example in many textbooks, e.g. Anderson, Fundamentals of Aerodynamics, for 2412.',
      status: 'from memory',
      points: () => [
        { at: '2 % at 40 %', ours: degreesFromRadians(zeroLiftPerCamber(0.4) * 0.02), theirs: -2.08 },
      ],
      target: { absolute: 0.02 },
    },
    ...SECTIONS.flatMap((section) =>
      section.reynolds.flatMap((re) => [curve(section, re, 'Cl'), curve(section, re, 'Cd')]),
    ),
  ],
  summaries: () => [spread()],
  pictures: () => SECTIONS.flatMap((section) => [picture(section, 'Cl'), picture(section, 'Cd')]),
};
