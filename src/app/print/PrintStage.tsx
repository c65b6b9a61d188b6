import { ChoiceField } from '../field/ChoiceField.tsx';
import { NumberField } from '../field/NumberField.tsx';
import { TextField } from '../field/TextField.tsx';
import { PartPicker } from '../makeup/PartPicker.tsx';
import { useApp } from '../state/store.ts';
import { CouponCard } from './CouponCard.tsx';
import { DivisionCard } from './DivisionCard.tsx';
import { AssemblyCard } from './AssemblyCard.tsx';
import { LayersCard } from './LayersCard.tsx';
import { PartsList } from './PartsList.tsx';
import { PrinterLimitsCard } from './PrinterLimitsCard.tsx';

const PRINTER = [
  'lineWidth_mm',
  'layer_mm',
  'minimumWall_mm',
  'xyError_mm',
  'xyScatter_mm',
  'holeShrink_mm',
  'walls',
  'infill_ratio',
  'skinLayers',
  'speed_mmps',
  'layerTime_s',
  'overhang_deg',
  'bridge_mm',
  'bedX_mm',
  'bedY_mm',
  'bedZ_mm',
];
const MATERIAL = [
  'density_kgpm3',
  'modulus_GPa',
  'strengthInPlane_MPa',
  'strengthAcrossLayers_MPa',
  'softening_C',
  'pricePerKg',
];

/** The parts and their files, and the printer and material they are meant for. */
export function PrintStage() {
  const process = useApp((s) => s.project.printer.process);
  return (
    <>
      <PartsList />
      <LayersCard />
      <AssemblyCard />
      <DivisionCard />
      <PrinterLimitsCard />
      <section className="card" aria-labelledby="printer-title">
        <h2 id="printer-title">Printer</h2>
        <PartPicker group="printer" />
        <div className="form">
          <TextField path="printer.name" label="Name" />
          <ChoiceField path="printer.process" label="Process" />
          {PRINTER.map((key) => (
            <NumberField key={key} path={`printer.${key}`} />
          ))}
        </div>
        <p className="caution">
          {process === 'resin'
            ? 'Liquid resin harms skin, eyes and lungs: gloves and eye protection, an aired room, and no uncured resin down the drain. Cured parts are brittle; a rotor of brittle resin can burst.'
            : 'Melting filament gives off fumes and fine particles: air the room, and keep out of it while it prints if you can. The nozzle and the bed burn.'}
        </p>
      </section>
      <CouponCard />
      <section className="card" aria-labelledby="material-title">
        <h2 id="material-title">Material</h2>
        <PartPicker group="material" />
        <div className="form">
          <TextField path="material.name" label="Name" />
          {MATERIAL.map((key) => (
            <NumberField key={key} path={`material.${key}`} />
          ))}
        </div>
      </section>
    </>
  );
}
