import type { Project } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import type { Strength } from '../../strength/types.ts';
import { ROTOR_CAUTIONS } from '../../strength/words.ts';
import { LineChart } from '../charts/LineChart.tsx';
import { Said } from '../craft/Said.tsx';
import { ChoiceField } from '../field/ChoiceField.tsx';
import { NumberField } from '../field/NumberField.tsx';
import { BLADES_PRINT } from '../print/bladesPrint.ts';
import { SpeedBar } from './SpeedBar.tsx';

interface Props {
  readonly project: Project;
  readonly strength: Strength | null;
}

/** What the rotor stands: its failure speed against full throttle, stress along the blade, and what a blow does. */
export function StrengthCard({ project, strength }: Props) {
  return (
    <section className="card strength" aria-labelledby="strength-card">
      <h3 id="strength-card">
        Strength of the rotor <em>at full throttle on a full battery, blades as printed</em>
      </h3>
      {strength ? (
        <Answer strength={strength} />
      ) : (
        <p>The hub leaves no blade, so there is nothing to load.</p>
      )}
      <div className="form">
        <NumberField path="fan.safetyFactor" />
        <NumberField path="fan.rootFillet_mm" />
        <NumberField path="craft.dropHeight_m" />
        {project.fan.rotorParts === 'blades apart' && (
          <ChoiceField path="fan.bladesPrinted" label="Blades printed" names={BLADES_PRINT} />
        )}
      </div>
      <ul className="caution">
        {ROTOR_CAUTIONS.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}

function Answer({ strength }: { readonly strength: Strength }) {
  const { radius_mm, peak_MPa, centrifugal_MPa, allowed_MPa } = strength.stations;
  const over = (list: readonly number[]) => radius_mm.map((r, i) => [r, list[i]] as const);
  const [first, ...rest] = strength.words;
  return (
    <>
      <p className={strength.holds ? 'verdict-strength' : 'verdict-strength stop'} role="status">
        {first}
      </p>
      <div className="strength-views">
        <SpeedBar strength={strength} />
        <LineChart
          story={`Stress along the blade: ${n(peak_MPa[0], 2)} MPa at the root, falling to nothing at the tip; ${n(allowed_MPa[0], 2)} MPa is allowed at the root.`}
          caption={
            <>
              <span className="key">largest stress</span>
              <span className="key dashed-blue">pull alone</span>
            </>
          }
          xName="radius, mm"
          yName="MPa"
          from={radius_mm[0]}
          to={radius_mm[radius_mm.length - 1]}
          lines={[{ points: over(peak_MPa) }, { points: over(centrifugal_MPa), dashed: true }]}
          spots={[]}
          level={{ y: allowed_MPa[0], words: `allowed at the root, ${n(allowed_MPa[0], 2)} MPa` }}
        />
      </div>
      <Said texts={rest} />
    </>
  );
}
