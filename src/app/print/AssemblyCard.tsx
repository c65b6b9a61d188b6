import { useState } from 'react';
import type { FitCheck } from '../../make/interference.ts';
import type { Project } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { ChoiceField } from '../field/ChoiceField.tsx';
import { NumberField } from '../field/NumberField.tsx';
import { useApp } from '../state/store.ts';
import type { ShownCraft } from '../view3d/solids.ts';
import { CraftView } from '../view3d/CraftView.tsx';
import { useAssembled, type Assembled } from './useAssembled.ts';

const BODY = [
  'plate_mm',
  'armWidth_mm',
  'bayLength_mm',
  'bayWidth_mm',
  'bayHeight_mm',
  'boardSpacing_mm',
  'boardHole_mm',
];

/** What holds the craft together, and the craft put together: drawn and checked once it is asked for. */
export function AssemblyCard() {
  const project = useApp((s) => s.project);
  const [open, setOpen] = useState(false);
  const { frame } = project.craft;
  return (
    <section className="card assembly" aria-labelledby="assembly-title">
      <h2 id="assembly-title">Frame and assembly</h2>
      <div className="form">
        <ChoiceField path="craft.frame.kind" label="Frame" />
        {frame.kind !== 'none' && BODY.map((key) => <NumberField key={key} path={`craft.frame.${key}`} />)}
        {frame.kind === 'modular' && (
          <>
            <NumberField path="craft.frame.bolt_mm" />
            <ChoiceField path="craft.frame.fastening" label="Fastening" />
            <NumberField path="fan.duct.lugCount" />
            <NumberField path="fan.duct.lugHole_mm" />
          </>
        )}
        {frame.kind !== 'none' && (
          <>
            <NumberField path="craft.ductSpacing_mm" />
            <NumberField path="craft.batteryBelow_mm" />
          </>
        )}
      </div>
      {frame.kind !== 'none' && project.craft.fixedMasses.length > 0 && (
        <p>
          A printed frame is weighed by itself. Take out of the fixed masses what it replaces:{' '}
          {project.craft.fixedMasses.map(({ name, mass_g }) => `${name} ${n(mass_g)} g`).join(', ')}.
        </p>
      )}
      {open ? (
        <Together project={project} />
      ) : (
        <p>
          <button onClick={() => setOpen(true)}>Put the craft together and check how it fits</button>
        </p>
      )}
    </section>
  );
}

function Together({ project }: { project: Project }) {
  const assembled = useAssembled(project);
  const { craft, why } = assembled;
  return (
    <>
      {why.length > 0 && (
        <ul className="faults">
          {why.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <CraftView
        craft={craft}
        note={craft ? storyOf(craft) : why.length ? '' : 'The craft is being put together.'}
      />
      <FitList assembled={assembled} current={assembled.of === project} />
    </>
  );
}

function storyOf({ centreOfMass_mm: [x, y, z], mass_g, frameScrews }: ShownCraft): string {
  const part = (value: number, ahead: string, behind: string) =>
    Math.abs(value) < 0.05 ? '' : `${n(Math.abs(value))} mm ${value < 0 ? behind : ahead}`;
  const off = [part(x, 'ahead', 'behind'), part(y, 'right', 'left')].filter(Boolean).join(' and ');
  const screws = frameScrews ? ` ${frameScrews} screws hold the frame.` : '';
  return `The dot is the centre of mass of all ${n(mass_g)} g: ${off ? `${off} of the middle` : 'in the middle'}, ${part(z, 'below', 'above')} the lower edge of the lip.${screws} Drag to turn.`;
}

function FitList({ assembled: { fit, why }, current }: { assembled: Assembled; current: boolean }) {
  if (why.length) return null;
  if (!fit || !current) return <p role="status">Checking every pair of parts …</p>;
  return (
    <>
      <h3>How closely it fits</h3>
      {fit.collisions.length > 0 && (
        <ul className="faults" role="status">
          {fit.collisions.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {fit.meetings.length === 0 ? (
        <p role="status">Nothing aboard comes near anything else.</p>
      ) : (
        <Meetings fit={fit} />
      )}
    </>
  );
}

const two = (value: number): string => `${value.toFixed(2)} mm`;

function Meetings({ fit }: { fit: FitCheck }) {
  return (
    <>
      <div className="scroll" tabIndex={0} role="region" aria-label="Clearances">
        <table className="parts-table">
          <thead>
            <tr>
              <th scope="col">Between</th>
              <th scope="col">Pairs</th>
              <th scope="col">At rest</th>
              <th scope="col">At full speed</th>
              <th scope="col">Nearest at x, y, z</th>
            </tr>
          </thead>
          <tbody>
            {fit.meetings.map(({ a, b, pairs, gap_mm, gapAtSpeed_mm, at_mm }) => (
              <tr key={`${a} ${b}`}>
                <th scope="row">
                  {a}, {b}
                </th>
                <td>{pairs}</td>
                <td>{two(gap_mm)}</td>
                <td>{gapAtSpeed_mm === null ? 'both stand' : two(gapAtSpeed_mm)}</td>
                <td>{at_mm.map((value) => (Math.abs(value) < 0.05 ? 0 : value).toFixed(1)).join(', ')} mm</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        The closest pair of each kind, as drawn. At full speed the tips of the rotor have moved out by{' '}
        {n(1e6 * fit.growth, 2)} µm; warmth and creep come on top. Screws and wires are left out. x points
        forward, y to the right, z down from where lip and bore meet.
      </p>
    </>
  );
}
