import { useState, type FormEvent } from 'react';
import type { MeasuredMotor } from '../../drive/motor-readings.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { AskedField } from '../field/AskedField.tsx';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { IntervalTable, type IntervalRow } from './IntervalTable.tsx';
import {
  checkReadings,
  noReadings,
  PLACES,
  readingFacts,
  type CheckedReadings,
  type Place,
} from './readings.ts';

/** The constants of a motor from readings at the bench, used in the project as one step. */
export function ReadingsCard() {
  const [typed, setTyped] = useState(noReadings);
  const [checked, setChecked] = useState<CheckedReadings | null>(null);
  const motor = useApp((s) => s.project.motor);
  const field = (place: Place) => (
    <AskedField
      key={place}
      facts={readingFacts[place]}
      typed={typed[place]}
      wrong={checked && !checked.ok ? checked.wrong[place] : undefined}
      onType={(text) => {
        setTyped({ ...typed, [place]: text });
        setChecked(null);
      }}
    />
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setChecked(checkReadings(typed));
  };
  const used =
    checked?.ok &&
    Object.entries(checked.found.motor).every(([key, v]) => motor[key as keyof typeof motor] === v);
  return (
    <section className="card folded" aria-labelledby="readings-title">
      <details>
        <summary>
          <h3 id="readings-title">
            Motor from bench readings <em>resistance, and the free shaft at one or two voltages</em>
          </h3>
        </summary>
        <p className="caution">
          Read with the rotor and anything else off the shaft. Clamp the motor, keep fingers, hair and leads
          clear of the can, wear eye protection, and set a current limit on the supply; from a lithium pack
          put a fuse between.
        </p>
        <form className="readings" onSubmit={submit} noValidate>
          <div className="form">{PLACES.slice(0, 2).map(field)}</div>
          <fieldset>
            <legend>Shaft free, at about the highest voltage it will see</legend>
            <div className="form">{PLACES.slice(2, 5).map(field)}</div>
          </fieldset>
          <fieldset>
            <legend>Shaft free, near half that voltage (may be left out)</legend>
            <div className="form">{PLACES.slice(5).map(field)}</div>
          </fieldset>
          <p className="parts-foot">
            <button type="submit" className="chief">
              Find the constants
            </button>
          </p>
        </form>
        <div aria-live="polite">
          {checked && !checked.ok && checked.general.length > 0 && (
            <div className="drawn">
              {checked.general.map((text) => (
                <p key={text}>{text}</p>
              ))}
            </div>
          )}
          {checked?.ok && (
            <section className="drawn" aria-label="What the readings say">
              <IntervalTable label="Constants" rows={rowsOf(checked.found.constants)} />
              {checked.found.notes.length > 0 && (
                <ul>
                  {checked.found.notes.map((text) => (
                    <li key={text}>{text}</li>
                  ))}
                </ul>
              )}
              <p className="parts-foot">
                <button
                  disabled={used}
                  onClick={() => edit({ motor: { ...motor, ...checked.found.motor } }, 'motor from readings')}
                >
                  Use these
                </button>
                <span role="status">
                  {used
                    ? 'The motor of the project has these constants now.'
                    : 'Currents it stands, mass and dimensions stay as they are.'}
                </span>
              </p>
            </section>
          )}
        </div>
      </details>
    </section>
  );
}

const rowsOf = (found: MeasuredMotor): IntervalRow[] => [
  { name: 'Speed for each volt', value: found.velocityConstant_rpmPerV, unit: 'rpm/V', digits: 4 },
  {
    name: 'Torque for each ampere',
    value: found.torqueConstant_NmpA,
    unit: 'mN m/A',
    digits: 4,
    factor: 1000,
  },
  { name: 'Resistance at 20 °C', value: found.resistance_mohm, unit: 'mΩ', digits: 4 },
  {
    name: `No-load current at ${n(found.noLoadVoltage_V)} V`,
    value: found.noLoadCurrent_A,
    unit: 'A',
    digits: 3,
  },
  {
    name: 'Steady share of that current',
    value: found.noLoadSteady_ratio,
    unit: '',
    digits: 2,
    unknown: '0.5, assumed',
  },
];
