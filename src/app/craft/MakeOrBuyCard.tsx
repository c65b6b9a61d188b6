import { useMemo, useState } from 'react';
import { NumberField } from '../field/NumberField.tsx';
import { TextField } from '../field/TextField.tsx';
import { formatNumber as n } from '../../quantities/format.ts';
import type { Project } from '../../project/schema.ts';
import { makeOrBuy, type FanSet } from '../../study/make-or-buy.ts';
import { boughtOf, costsOf } from '../../study/purchases.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { Said } from './Said.tsx';

type Unit = Project['purchases']['units'][number];

/** The printed fans beside units one can buy, at the user's own prices. */
export function MakeOrBuyCard() {
  const project = useApp((s) => s.project);
  const assessment = useApp((s) => s.assessment);
  const { currency, units } = project.purchases;
  // Read once: a form that folds while one types in it would be a nuisance.
  const [unpriced] = useState(() => !(project.purchases.motorPrice > 0));
  const answer = useMemo(
    () => assessment && makeOrBuy(project, costsOf(project), boughtOf(project), assessment),
    [project, assessment],
  );
  return (
    <section className="card" aria-labelledby="make-or-buy-title">
      <h3 id="make-or-buy-title">
        Make or buy <em>your printed fans beside ready-made units, at your own prices</em>
      </h3>
      {answer && (
        <>
          <div className="scroll" tabIndex={0} role="region" aria-label="Printed and bought side by side">
            <table className="stations layouts">
              <caption className="unseen">One flying set of fans with motors and controllers</caption>
              <thead>
                <tr>
                  <th scope="col">A flying set</th>
                  <th scope="col">Cost, {currency}</th>
                  <th scope="col">Mass</th>
                  <th scope="col">Thrust</th>
                  <th scope="col">Current</th>
                  <th scope="col">Thrust over weight</th>
                  <th scope="col">g of thrust a {currency}</th>
                  <th scope="col">g of thrust a gram</th>
                  <th scope="col">Printing</th>
                  <th scope="col">Your work</th>
                </tr>
              </thead>
              <tbody>
                {[answer.printed, ...answer.bought].map((set, i) => (
                  <Row key={i} set={set} />
                ))}
              </tbody>
            </table>
          </div>
          <Said texts={answer.words} />
        </>
      )}
      <BoughtUnits units={units} />
      <details className="folded prices" open={unpriced}>
        <summary>
          <h4>What making costs you</h4>
        </summary>
        <div className="form">
          <TextField path="purchases.currency" label="Word or sign for the money" most={12} />
          <NumberField path="material.pricePerKg" />
          <NumberField path="purchases.motorPrice" />
          <NumberField path="purchases.controllerPrice" />
          <NumberField path="purchases.printerHourPrice" />
          <NumberField path="purchases.labourHourPrice" />
          <NumberField path="purchases.scrap_ratio" />
          <NumberField path="purchases.laidDown_mm3ps" />
          <NumberField path="purchases.handsOn_h" />
        </div>
      </details>
    </section>
  );
}

function Row({ set }: { readonly set: FanSet }) {
  const known = set.thrust_N > 0;
  return (
    <tr>
      <th scope="row">{set.name}</th>
      <td>{n(set.price)}</td>
      <td>{n(set.mass_g)} g</td>
      <td>{known ? `${n(set.thrust_N)} N` : '–'}</td>
      <td>{set.current_A ? `${n(set.current_A)} A` : '–'}</td>
      <td>{known ? n(set.thrustToWeight) : '–'}</td>
      <td>{known && set.price > 0 ? n(set.gramsOfThrustPerMoney) : '–'}</td>
      <td>{known ? n(set.gramsOfThrustPerGram) : '–'}</td>
      <td>{set.printing_h > 0 ? `${n(set.printing_h)} h` : 'none'}</td>
      <td>{set.handsOn_h > 0 ? `${n(set.handsOn_h)} h` : 'none'}</td>
    </tr>
  );
}

/** The bought units as their makers state them, each figure edited where it stands. */
function BoughtUnits({ units }: { readonly units: readonly Unit[] }) {
  const path = 'purchases.units';
  return (
    <div className="bought">
      {units.length > 0 && (
        <div className="scroll" tabIndex={0} role="region" aria-label="Units one can buy">
          <table className="stations bought-units">
            <caption>One unit, as its maker states it</caption>
            <thead>
              <tr>
                <th scope="col">Name</th>
                <th scope="col">Price</th>
                <th scope="col">
                  Mass <small>g</small>
                </th>
                <th scope="col">
                  Thrust <small>N</small>
                </th>
                <th scope="col">
                  Current <small>A</small>
                </th>
                <th scope="col">With controller</th>
                <th scope="col">
                  <span className="unseen">Remove</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {units.map((unit, i) => (
                <tr key={i}>
                  <td>
                    <TextField bare path={`${path}.${i}.name`} label={`Name of unit ${i + 1}`} />
                  </td>
                  {(['price', 'mass_g', 'thrust_N', 'current_A'] as const).map((key) => (
                    <td key={key}>
                      <NumberField
                        bare
                        path={`${path}.${i}.${key}`}
                        label={`${key.replace(/_.*/, '')} of ${unit.name}`}
                      />
                    </td>
                  ))}
                  <td>
                    <input
                      type="checkbox"
                      aria-label={`${unit.name} brings its controller`}
                      checked={unit.includesController}
                      onChange={(e) =>
                        edit({ [`${path}.${i}.includesController`]: e.target.checked }, 'controller of unit')
                      }
                    />
                  </td>
                  <td className="buttons">
                    <button
                      aria-label={`Remove ${unit.name}`}
                      title="Remove"
                      onClick={() => edit({ [path]: units.filter((_, k) => k !== i) }, 'removed unit')}
                    >
                      −
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <button
        disabled={units.length >= 20}
        onClick={() =>
          edit({ [path]: [...units, { ...NEW_UNIT, name: `unit ${units.length + 1}` }] }, 'added unit')
        }
      >
        Add a unit one can buy
      </button>
    </div>
  );
}

/** Without thrust and price, so that nothing is taken for a maker's figure that is none. */
const NEW_UNIT: Unit = {
  name: '',
  price: 0,
  mass_g: 20,
  thrust_N: 0,
  current_A: 0,
  includesController: false,
};
