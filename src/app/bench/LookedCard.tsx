import { NumberField } from '../field/NumberField.tsx';
import { Answer } from './Answer.tsx';
import type { RunPlace } from './place.ts';

const SEEN = [
  ['turnsRightWay', 'Turns the right way'],
  ['rightWayUp', 'Right way up'],
  ['bladesWhole', 'Blades whole'],
  ['ductClear', 'Duct and lip clear'],
  ['rubbed', 'A blade touched the wall'],
  ['motorHot', 'Motor too hot to touch'],
] as const;

const MEASURED = [
  ['gap_mm', 'Tip gap by feeler'],
  ['chord_mm', 'Blade width'],
  ['chordAt_ratio', 'Width measured at, 0 hub to 1 tip'],
  ['bladeAngle_deg', 'Blade angle'],
  ['bladeAngleAt_ratio', 'Angle measured at, 0 hub to 1 tip'],
  ['camberKept_ratio', 'Hollow kept, share'],
  ['rotorMass_g', 'Rotor as weighed'],
  ['scaleShows_ratio', 'Scale over a known weight'],
  ['fartherThrust_ratio', 'Thrust far from the pan, over this'],
  ['dutyReached_ratio', 'Throttle that arrives, share'],
  ['windingResistance_mohm', 'Resistance between motor leads'],
  ['velocityConstant_rpmPerV', 'Speed per volt, free run'],
  ['packResistance_mohm', 'Resistance of the pack'],
  ['currentLimit_A', 'Current limit set'],
] as const;

/** What was looked at and measured on the thing itself; each answer weighs in the causes. */
export function LookedCard({ place: { path } }: { readonly place: RunPlace }) {
  const at = `${path}.observed`;
  return (
    <section className="card folded" id="bench-looked" aria-labelledby="looked-title">
      <details>
        <summary>
          <h3 id="looked-title">
            Looked at and measured <em>on the thing itself; the battery is out</em>
          </h3>
        </summary>
        <p className="caution">Battery out before you touch a rotor, a lead or the duct.</p>
        <div className="form">
          {SEEN.map(([key, label]) => (
            <Answer
              key={key}
              path={`${at}.${key}`}
              label={label}
              none="not looked at"
              choices={[
                [true, 'yes'],
                [false, 'no'],
              ]}
            />
          ))}
          {MEASURED.map(([key, label]) => (
            <NumberField key={key} path={`${at}.${key}`} label={label} />
          ))}
        </div>
      </details>
    </section>
  );
}
