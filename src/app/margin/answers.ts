import type { Assessment } from '../../assess/types.ts';
import type { Interval } from '../../quantities/interval.ts';
import { formatMinutes, formatNumber, formatPercent } from '../../quantities/format.ts';

/** One line of the margin: what is answered, the number with its unit, and the interval where there is one. */
export interface Answer {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly interval?: string;
  /** The links of the chain of reasons that lead to this number, by their ids. */
  readonly chain: readonly string[];
  /** What else lies behind it. */
  readonly why: readonly string[];
}

export function between(interval: Interval, write: (value: number) => string): string {
  return `${write(interval.low)} to ${write(interval.high)}`;
}

/** The claim of a headline and, apart, the interval in brackets at its end. */
export function headlineOf(headline: string): readonly [string, string] {
  const open = headline.lastIndexOf(' (');
  return open > 0 && headline.endsWith(')')
    ? [headline.slice(0, open), headline.slice(open + 1)]
    : [headline, ''];
}

const n = formatNumber;

/** Which running point the page shows: hover, the hover that is out of reach, or full throttle where there is none. */
export function whenOf({ craft, fan }: Pick<Assessment, 'craft' | 'fan'>): string {
  return craft.lifts ? 'in hover' : fan.hover ? 'if it hovered' : 'at full throttle';
}

/** The rows of the margin column, read off the assessment. */
export function answersOf({ craft, fan, air, sound }: Assessment, fans: number): readonly Answer[] {
  const { hover, full } = fan;
  const at = hover ?? full;
  const when = whenOf({ craft, fan });
  const rows: Answer[] = [
    {
      id: 'need',
      chain: ['mass', 'need'],
      label: 'Needed from each fan in hover',
      value: `${n(fan.needed_N)} N`,
      why: [`One fan gives ${n(full.thrust_N)} N at full throttle.`],
    },
    {
      id: 'throttle',
      chain: ['need', 'shaft', 'drive', 'battery', 'full'],
      label: craft.lifts ? 'Throttle in hover' : 'Throttle that hover would take',
      value: craft.hoverThrottle === null ? 'not reached' : formatPercent(craft.hoverThrottle),
      interval: craft.hoverThrottleInterval
        ? between(craft.hoverThrottleInterval, (v) => formatPercent(v))
        : undefined,
      why: hover
        ? [
            `There the battery gives ${n(hover.batteryVoltage_V)} V and each winding carries ${n(hover.motorCurrent_A)} A.`,
          ]
        : ['No throttle gives the thrust that hover needs.'],
    },
    {
      id: 'endurance',
      chain: ['need', 'shaft', 'drive', 'battery'],
      label: 'Hover on one charge',
      value: craft.lifts ? formatMinutes(craft.hover_min) : 'none',
      interval: craft.lifts ? between(craft.hoverMinutesInterval, formatMinutes) : undefined,
      why: craft.lifts
        ? [`The battery is ${formatPercent(craft.batteryShare)} of the all-up mass.`]
        : ['It does not hover, so there is no time to give.'],
    },
    {
      id: 'speed',
      chain: ['need', 'shaft', 'full'],
      label: `Rotor speed ${when}`,
      value: `${n(at.rpm)} rpm`,
      why: [
        `The blade tips move at ${n(at.tipSpeed_mps)} m/s, ${formatPercent(at.tipMach)} of the speed of sound.`,
        `At full throttle: ${n(full.rpm)} rpm, ${n(full.tipSpeed_mps)} m/s at the tips.`,
      ],
    },
    {
      id: 'sound',
      chain: [],
      label: `Sound ${sound.hover ? when : 'at full throttle'}, ${sound.distance_m} m away`,
      value: `${Math.round((sound.hover ?? sound.full).overall_dBA.value)} dB(A)`,
      interval: between((sound.hover ?? sound.full).overall_dBA, (v) => `${Math.round(v)}`),
      why: sound.words.slice(0, 3),
    },
    {
      id: 'air',
      chain: ['ideal', 'air'],
      label: `Air through the rotor ${when}`,
      value: `${n(at.axialVelocity_mps)} m/s`,
      why: [`Air density ${n(air.density_kgpm3)} kg/m³ at ${n(air.pressure_Pa / 100)} hPa.`],
    },
    {
      id: 'power',
      chain: ['ideal', 'shaft', 'drive', 'battery'],
      label: `From the battery ${when}, all fans`,
      value: `${n(craft.lifts ? craft.hoverPower_W : at.electricalPower_W * fans)} W`,
      why: [`That is ${n(at.gramsPerWatt)} g of thrust for each watt, in this fan alone.`],
    },
    {
      id: 'merit',
      chain: ['ideal', 'shaft'],
      label: `Share of shaft power that lifts ${when}`,
      value: formatPercent(at.figureOfMerit),
      why: [
        `Figure of merit ${n(at.figureOfMerit)} against the ideal of its own kind, ${n(at.figureOfMeritOpen)} against an ideal open rotor of the same diameter.`,
        `The ledger under the drawing says where the rest goes.`,
      ],
    },
    {
      id: 'mass',
      chain: ['mass'],
      label: 'All-up mass',
      value: `${n(craft.mass_g)} g`,
      why: craft.items.map(
        (i) => `${i.name}${i.count > 1 ? `, ${i.count} of ${n(i.each_g)} g` : ''}: ${n(i.total_g)} g`,
      ),
    },
    {
      id: 'loading',
      chain: ['mass', 'need', 'ideal'],
      label: 'Weight on the rotor discs',
      value: `${n(craft.discLoading_Npm2)} N/m²`,
      why: ['The more weight on each square metre of disc, the more power hover takes.'],
    },
  ];
  const share = at.ductThrust_N / at.thrust_N;
  if (Number.isFinite(share) && at.ductThrust_N !== 0)
    rows.splice(4, 0, {
      id: 'duct',
      chain: ['air', 'duct'],
      label: `Carried by the duct ${when}`,
      value: `${formatPercent(share)} of thrust`,
      why: [`Rotor ${n(at.rotorThrust_N)} N, duct ${n(at.ductThrust_N)} N.`],
    });
  if (fan.openAtEqualPower)
    rows.push({
      id: 'open',
      chain: ['open'],
      label: 'Same rotor, same power, no duct',
      value: `${n(fan.openAtEqualPower.thrust_N)} N`,
      why: [
        `It would turn at ${n(fan.openAtEqualPower.rpm)} rpm; the duct itself weighs what the mass list says.`,
      ],
    });
  return rows;
}
