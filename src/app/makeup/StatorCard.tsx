import { useState, type FormEvent } from 'react';
import { typicalMotor, typicalMotorKeys, type TypicalMotor } from '../../drive/typical-motor.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { AskedField } from '../field/AskedField.tsx';
import type { FieldFacts } from '../field/describe.ts';
import { readEntry, writeEntry } from '../field/entry.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { IntervalTable, type IntervalRow } from './IntervalTable.tsx';

const facts = (label: string, unit: string, min: number, max: number, help: string): FieldFacts => ({
  label,
  unit,
  min,
  max,
  help,
  whole: false,
  nullable: false,
});

const FACTS = {
  diameter: facts('Stator diameter', 'mm', 9, 30, 'The first two digits of a size such as 1404.'),
  height: facts('Stator height', 'mm', 1.5, 12, 'The last two digits of it.'),
  speedPerVolt: facts('Speed for each volt', 'rpm/V', 600, 20_000, 'As the seller gives it.'),
} as const;
type Asked = keyof typeof FACTS;
const ASKED = Object.keys(FACTS) as Asked[];

interface Found {
  readonly typical: TypicalMotor;
  readonly speedPerVolt: number;
}

/** What a motor of a stator size usually is: an estimate for a motor nobody has measured, used as one step. */
export function StatorCard() {
  const motor = useApp((s) => s.project.motor);
  const [typed, setTyped] = useState<Partial<Record<Asked, string>>>({});
  const [wrong, setWrong] = useState<Partial<Record<Asked, string>>>({});
  const [found, setFound] = useState<Found | null>(null);
  const shown = (key: Asked) =>
    typed[key] ?? (key === 'speedPerVolt' ? writeEntry(motor.velocityConstant_rpmPerV) : '');
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const refused: Partial<Record<Asked, string>> = {};
    const [diameter, height, speedPerVolt] = ASKED.map((key) => {
      const entry = readEntry(shown(key), FACTS[key]);
      if (entry.ok) return entry.value ?? 0;
      refused[key] = entry.why;
      return 0;
    });
    setWrong(refused);
    const typical = Object.keys(refused).length > 0 ? null : typicalMotor(diameter, height, speedPerVolt);
    setFound(typical && { typical, speedPerVolt });
  };
  const keys = found && {
    velocityConstant_rpmPerV: found.speedPerVolt,
    ...typicalMotorKeys(found.typical),
  };
  const used = keys && Object.entries(keys).every(([key, v]) => motor[key as keyof typeof motor] === v);
  return (
    <section className="card folded" aria-labelledby="stator-title">
      <details>
        <summary>
          <h3 id="stator-title">
            Motor from its stator size <em>an estimate, where nothing is measured</em>
          </h3>
        </summary>
        <form className="readings" onSubmit={submit} noValidate>
          <div className="form">
            {ASKED.map((key) => (
              <AskedField
                key={key}
                facts={FACTS[key]}
                typed={shown(key)}
                wrong={wrong[key]}
                onType={(text) => {
                  setTyped({ ...typed, [key]: text });
                  setWrong({ ...wrong, [key]: undefined });
                  setFound(null);
                }}
              />
            ))}
          </div>
          <p className="parts-foot">
            <button type="submit" className="chief">
              Estimate it
            </button>
          </p>
        </form>
        <div aria-live="polite">
          {found && keys && (
            <section className="drawn" aria-label="What is usual for this stator">
              <IntervalTable label="Usual figures" rows={rowsOf(found.typical)} />
              <p>
                Nobody measured this motor: the middle may be off by the whole range. Source: common practice,
                no source. Read it at the bench before you trust hover time or warmth.
              </p>
              <p className="parts-foot">
                <button
                  disabled={used === true}
                  onClick={() => edit({ motor: { ...motor, ...keys } }, 'motor from its stator')}
                >
                  Use this estimate
                </button>
                <span role="status">
                  {used
                    ? 'The motor of the project has these figures now.'
                    : 'Name, shaft and mounting holes stay as they are.'}
                </span>
              </p>
            </section>
          )}
        </div>
      </details>
    </section>
  );
}

const rowsOf = (t: TypicalMotor): IntervalRow[] => [
  { name: 'Resistance', value: t.resistance_mohm, unit: 'mΩ', digits: 2 },
  { name: `No-load current at ${n(t.noLoadVoltage_V, 2)} V`, value: t.noLoadCurrent_A, unit: 'A', digits: 2 },
  { name: 'Current for minutes', value: t.continuousCurrent_A, unit: 'A', digits: 2 },
  { name: 'Current for seconds', value: t.burstCurrent_A, unit: 'A', digits: 2 },
  { name: 'Mass', value: t.mass_g, unit: 'g', digits: 2 },
  { name: 'Can diameter', value: t.canDiameter_mm, unit: 'mm', digits: 2 },
  { name: 'Can height', value: t.canHeight_mm, unit: 'mm', digits: 2 },
];
