import type { BenchRig } from '../../project/bench.ts';
import { NumberField } from '../field/NumberField.tsx';
import { TextField } from '../field/TextField.tsx';
import { edit } from '../state/actions.ts';
import { Answer } from './Answer.tsx';
import type { RunPlace } from './place.ts';
import { RigDrawing } from './RigDrawing.tsx';

const RIGS: readonly (readonly [kind: BenchRig['kind'], name: string, how: string])[] = [
  ['craft on the scale', 'Craft on the scale', 'Tied down on a thin post; the reading falls as it pulls.'],
  ['fan pressing down', 'Fan pressing down', 'It blows up and presses; the air below stays still.'],
  ['fan lifting off', 'Fan lifting off', 'It blows down beside the scale and takes weight off it.'],
  ['lever', 'Lever', 'Pivot between fan and scale; the ratio of the arms counts.'],
  ['load cell', 'Load cell', 'A beam cell holds the fan in free air.'],
];

/** How the fan stands on its rig, the air and the battery there. */
export function RigCard({ place: { run, path } }: { readonly place: RunPlace }) {
  const { kind } = run.rig;
  const rig = `${path}.rig`;
  return (
    <section className="card folded" aria-labelledby="rig-title">
      <details open={run.rows.length === 0}>
        <summary>
          <h3 id="rig-title">
            Rig{' '}
            <em>
              {kind}, {run.rig.fansRunning === 1 ? 'one fan' : `${run.rig.fansRunning} fans`} running
            </em>
          </h3>
        </summary>
        <fieldset className="rigs">
          <legend className="unseen">How thrust gets to the scale</legend>
          {RIGS.map(([one, name, how]) => (
            <label key={one} className={one === kind ? 'rig taken' : 'rig'}>
              <RigDrawing kind={one} />
              <span>
                <input
                  type="radio"
                  name="rig-kind"
                  checked={one === kind}
                  onChange={() => edit({ [`${rig}.kind`]: one }, `rig: ${one}`)}
                />
                <b>{name}</b>
              </span>
              <small>{how}</small>
            </label>
          ))}
        </fieldset>
        <div className="form">
          <NumberField path={`${rig}.fansRunning`} label="Fans running" />
          <NumberField path={`${rig}.massAtRest_g`} label="Scale at rest" />
          {kind === 'lever' && <NumberField path={`${rig}.leverRatio`} label="Lever ratio" />}
          <NumberField path={`${rig}.distanceToPan_mm`} label="Exit to pan or table" />
          <NumberField path={`${rig}.scaleResolution_g`} label="Step of the scale" />
          <NumberField path={`${path}.observed.craftMass_g`} label="Craft as weighed" />
          <NumberField path={`${path}.battery.charge_ratio`} label="Charge at the start, share" />
        </div>
        <details className="more-rig">
          <summary>Meters, air and battery</summary>
          <div className="form">
            <NumberField path={`${rig}.panWidth_mm`} label="Width of the pan" />
            <Answer
              path={`${rig}.reading`}
              label="As it pulls, the reading"
              none="as is usual for the rig"
              choices={[
                ['rises', 'rises'],
                ['falls', 'falls'],
              ]}
            />
            <NumberField path={`${rig}.scaleError_ratio`} label="Error of the scale, share" />
            <NumberField path={`${rig}.voltageError_ratio`} label="Error of voltage, share" />
            <NumberField path={`${rig}.currentError_ratio`} label="Error of current, share" />
            <NumberField path={`${rig}.rpmError_ratio`} label="Error of speed, share" />
            <NumberField path={`${path}.air.temperature_C`} label="Air temperature" />
            <NumberField path={`${path}.air.pressure_hPa`} label="Air pressure there" />
            <NumberField path={`${path}.air.altitude_m`} label="Height above sea level" />
            <NumberField path={`${path}.battery.restVoltage_V`} label="Pack at rest" />
            <TextField path={`${path}.battery.note`} label="About the pack" />
          </div>
        </details>
      </details>
    </section>
  );
}
