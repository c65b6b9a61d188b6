import { useState } from 'react';
import { create } from 'zustand';
import { COUPON, profileFromCoupon } from '../../print/coupon.ts';
import { edit, tell } from '../state/actions.ts';
import { download } from '../state/files.ts';
import { useApp } from '../state/store.ts';
import { askSolids } from '../view3d/solidsClient.ts';
import { readTyped, type Typed } from './couponReadings.ts';

/** What was typed outlives the stage: readings are taken while other stages are looked at. */
const useTyped = create<{ readonly typed: Typed }>(() => ({ typed: {} }));

/** A small piece to print first; what is read off it sets the printer's profile. */
export function CouponCard() {
  const printer = useApp((s) => s.project.printer);
  const { typed } = useTyped();
  const [saving, setSaving] = useState(false);
  const type = (key: string, value: string) => useTyped.setState({ typed: { ...typed, [key]: value } });
  const read = readTyped(typed);
  const found = read.ok && read.any ? profileFromCoupon(read.readings, printer) : null;
  const error = read.ok ? (found && !found.ok ? found.error : null) : read.error;
  const save = async () => {
    setSaving(true);
    try {
      const answer = await askSolids((worker) => worker.coupon());
      if (answer.ok) download('coupon.stl', answer.bytes, 'model/stl');
      else tell('The coupon was not written.', answer.why);
    } catch {
      tell('The coupon was not written this time; try again.');
    } finally {
      setSaving(false);
    }
  };
  const choice = (key: string, label: string, values: readonly number[], unit: string) => (
    <label>
      {label}
      <select value={typed[key] ?? ''} onChange={(event) => type(key, event.target.value)}>
        <option value="">not read</option>
        {values.map((value) => (
          <option key={value} value={value}>
            {value} {unit}
          </option>
        ))}
      </select>
    </label>
  );
  const sizes = (kind: 'pin' | 'hole', words: string, nominals: readonly number[]) => (
    <fieldset>
      <legend>{words}</legend>
      {nominals.map((size) => {
        const key = `${kind}-${size}`;
        const wrong = !read.ok && read.key === key;
        return (
          <label key={key}>
            {size} mm
            <input
              inputMode="decimal"
              placeholder="not read"
              value={typed[key] ?? ''}
              aria-invalid={wrong || undefined}
              onChange={(event) => type(key, event.target.value)}
            />
          </label>
        );
      })}
    </fieldset>
  );
  return (
    <section className="card coupon" aria-labelledby="coupon-title">
      <h2 id="coupon-title">Coupon</h2>
      <p>
        A piece of {COUPON.base.length} × {COUPON.base.width} mm to print first, with the settings of the fan.
        Each row begins at the notched end, smallest first: fins, holes, pins, slots, leaning walls. Read it
        with a caliper; what you leave out stays as it is.
      </p>
      <p>
        <button disabled={saving} onClick={() => void save()}>
          Save the coupon as STL
        </button>
      </p>
      <div className="coupon-choices">
        {choice('fin', 'Thinnest fin that came out whole', COUPON.fins.thickness, 'mm')}
        {choice('gap', 'Narrowest slot that is open', COUPON.gaps.width, 'mm')}
        {choice('lean', 'Steepest lean, from upright, that is clean', COUPON.leans.angle, '°')}
      </div>
      {sizes('pin', 'Pins, mm read across', COUPON.pins.diameter)}
      {sizes('hole', 'Holes, mm read across', COUPON.holes)}
      {error && (
        <p className="wrong" role="alert">
          {error}
        </p>
      )}
      {found?.ok && (
        <>
          <ul>
            {found.words.map((word) => (
              <li key={word}>{word}</li>
            ))}
          </ul>
          <button
            className="main"
            onClick={() => edit({ printer: found.printer }, 'printer from the coupon')}
          >
            Set the printer by these readings
          </button>
        </>
      )}
    </section>
  );
}
