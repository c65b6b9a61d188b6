import { memo } from 'react';
import { ChoiceField, SwitchField } from '../field/ChoiceField.tsx';
import { NumberField } from '../field/NumberField.tsx';
import { useApp } from '../state/store.ts';
import { PolarField } from './PolarField.tsx';

/** Every dimension of the fan as a list, for those that have no place on the drawing and for the keyboard. */
export const FanFields = memo(function FanFields() {
  const ducted = useApp((s) => s.project.fan.kind === 'ducted');
  const curved = useApp((s) => s.project.fan.stator.curved);
  return (
    <section className="card" aria-labelledby="fan-fields">
      <h3 id="fan-fields">
        Every dimension <em>those on the drawing, and those it has no room for</em>
      </h3>
      <div className="form">
        <ChoiceField
          path="fan.kind"
          label="Kind of fan"
          names={{ ducted: 'in a duct', open: 'open rotor' }}
        />
        <NumberField path="fan.tipDiameter_mm" />
        <NumberField path="fan.hubDiameter_mm" />
        <NumberField path="fan.hubHeight_mm" />
        <NumberField path="fan.bladeCount" />
        <NumberField path="fan.rootFillet_mm" />
        <ChoiceField
          path="fan.section.family"
          label="Blade section"
          names={{
            'flat-plate': 'flat plate',
            'arc-plate': 'plate bent to an arc',
            'four-digit': 'four-digit form',
          }}
        />
        <NumberField path="fan.section.camberPosition_ratio" />
        <NumberField path="fan.section.trailingEdge_mm" />
        <NumberField path="fan.section.noseBluntness_ratio" />
        <NumberField path="fan.section.roughness_mm" />
        <PolarField />
        {ducted && (
          <>
            <NumberField path="fan.tipGap_mm" />
            <NumberField path="fan.duct.lipRadius_mm" />
            <NumberField path="fan.duct.length_mm" />
            <NumberField path="fan.duct.wall_mm" />
            <NumberField path="fan.duct.exitAreaRatio" />
            <NumberField path="fan.duct.rotorDepth_mm" />
            <SwitchField path="fan.duct.tailCone" label="Tail cone" />
            <NumberField path="fan.stator.vaneCount" />
            <NumberField path="fan.stator.chord_mm" />
            <NumberField path="fan.stator.thickness_mm" />
            <SwitchField path="fan.stator.curved" label="Curved vanes" />
            {curved && <NumberField path="fan.stator.turn_deg" />}
          </>
        )}
      </div>
    </section>
  );
});
