import { ChoiceField } from '../field/ChoiceField.tsx';
import { NumberField } from '../field/NumberField.tsx';
import { TextField } from '../field/TextField.tsx';
import { BindingCards } from './BindingCards.tsx';
import { FixedMasses } from './FixedMasses.tsx';
import { MassBuildUp } from './MassBuildUp.tsx';
import { PartPicker } from './PartPicker.tsx';
import { ReadingsCard } from './ReadingsCard.tsx';
import { StatorCard } from './StatorCard.tsx';

const MOTOR = [
  'velocityConstant_rpmPerV',
  'resistance_mohm',
  'noLoadCurrent_A',
  'noLoadVoltage_V',
  'noLoadSteady_ratio',
  'continuousCurrent_A',
  'burstCurrent_A',
  'mass_g',
  'canDiameter_mm',
  'canHeight_mm',
  'shaftDiameter_mm',
  'mountCircle_mm',
  'mountHoles',
  'mountScrew_mm',
];
const CONTROLLER = [
  'resistance_mohm',
  'switchingLoss_ratio',
  'rippleLoss_S',
  'continuousCurrent_A',
  'mass_g',
];
const BATTERY = [
  'cells',
  'parallel',
  'capacity_mAh',
  'cellResistance_mohm',
  'leadResistance_mohm',
  'dischargeLimit_C',
  'usable_ratio',
  'mass_g',
];

/** What the craft is made of, and what that weighs. */
export function MakeupStage() {
  return (
    <>
      <section className="card" aria-labelledby="craft-title">
        <h2 id="craft-title">The craft and its mass</h2>
        <div className="form">
          <NumberField path="craft.fanCount" />
          <NumberField path="craft.auxiliaryPower_W" />
          <ChoiceField
            path="craft.layout"
            label="Layout"
            names={{ ring: 'in a ring', row: 'in a row', 'two rows': 'in two rows' }}
          />
        </div>
        <div className="halves">
          <MassBuildUp />
          <FixedMasses />
        </div>
      </section>
      <section className="card" aria-labelledby="motor-title">
        <h2 id="motor-title">Motor</h2>
        <PartPicker group="motor" />
        <div className="form">
          <TextField path="motor.name" label="Name" />
          {MOTOR.map((key) => (
            <NumberField key={key} path={`motor.${key}`} />
          ))}
        </div>
      </section>
      <ReadingsCard />
      <StatorCard />
      <section className="card" aria-labelledby="controller-title">
        <h2 id="controller-title">Speed controller</h2>
        <PartPicker group="controller" />
        <div className="form">
          <TextField path="controller.name" label="Name" />
          {CONTROLLER.map((key) => (
            <NumberField key={key} path={`controller.${key}`} />
          ))}
        </div>
      </section>
      <section className="card" aria-labelledby="battery-title">
        <h2 id="battery-title">Battery</h2>
        <PartPicker group="battery" />
        <div className="form">
          <TextField path="battery.name" label="Name" />
          <ChoiceField path="battery.chemistry" label="Chemistry" />
          {BATTERY.map((key) => (
            <NumberField key={key} path={`battery.${key}`} />
          ))}
        </div>
        <p className="caution">
          Lithium cells burn when they are crushed, pierced, shorted or charged wrongly. Charge them attended,
          on a surface that does not burn, with a charger made for them; stop using a pack that is puffed,
          dented or hot.
        </p>
      </section>
      <BindingCards />
    </>
  );
}
