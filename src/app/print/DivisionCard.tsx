import { ChoiceField, SwitchField } from '../field/ChoiceField.tsx';
import { NumberField } from '../field/NumberField.tsx';
import { useApp } from '../state/store.ts';
import { BLADES_PRINT } from './bladesPrint.ts';

/** Which parts rotor and duct come in, and how they go together. */
export function DivisionCard() {
  const { kind, rotorParts, hub, duct } = useApp((s) => s.project.fan);
  return (
    <section className="card" aria-labelledby="division-title">
      <h2 id="division-title">How it is divided</h2>
      <h3>Rotor</h3>
      <div className="form">
        <ChoiceField path="fan.rotorParts" label="Rotor comes as" />
        {rotorParts === 'blades apart' && (
          <ChoiceField path="fan.bladesPrinted" label="Blades print" names={BLADES_PRINT} />
        )}
        <ChoiceField path="fan.hub.hold" label="Held by" />
        {hub.hold === 'bell screws' && (
          <>
            <NumberField path="fan.hub.screwCircle_mm" />
            <NumberField path="fan.hub.screwCount" />
            <NumberField path="fan.hub.screw_mm" />
          </>
        )}
        {hub.hold === 'threaded shaft' && <NumberField path="fan.hub.thread_mm" />}
        <SwitchField path="fan.hub.spinner" label="Spinner" />
        <NumberField path="fan.tipRing_mm" />
      </div>
      {kind === 'ducted' && (
        <>
          <h3>Duct</h3>
          <div className="form">
            <NumberField path="fan.duct.rings" />
            <SwitchField path="fan.duct.lipApart" label="Lip apart" />
            <NumberField path="fan.duct.wireSlot_mm" />
            <NumberField path="fan.duct.lugCount" />
            {duct.lugCount > 0 && <NumberField path="fan.duct.lugHole_mm" />}
          </div>
          {(duct.rings > 1 || duct.lipApart) && (
            <p className="parts-foot">
              Pieces of the duct stand on their lower ends, butt flush on the air side and slide into a collar
              outside with the clearance of this printer. Glue them once the rotor turns freely. Under the
              curve of the lip&apos;s outside, where the air does not go, support may be needed.
            </p>
          )}
        </>
      )}
    </section>
  );
}
