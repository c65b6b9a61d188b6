import { NumberField } from '../field/NumberField.tsx';
import { TextField } from '../field/TextField.tsx';

/** What the craft must do, and where. */
export function BriefStage() {
  return (
    <>
      <section className="card" aria-labelledby="brief-title">
        <h2 id="brief-title">What it must do</h2>
        <div className="form">
          <NumberField path="brief.payload_g" />
          <NumberField path="brief.wanted_min" />
          <NumberField path="brief.largestDuctWidth_mm" />
          <NumberField path="brief.noiseWish_dBA" />
        </div>
      </section>
      <section className="card" aria-labelledby="where-title">
        <h2 id="where-title">Where it flies</h2>
        <div className="form">
          <NumberField path="brief.altitude_m" />
          <NumberField path="brief.airTemperature_C" />
        </div>
        <p className="caution">
          Flying near people, animals or buildings is bound by the rules of the place. Look them up before the
          first flight; where a licence or a permit is asked for, get it first.
        </p>
      </section>
      <section className="card" aria-labelledby="note-title">
        <h2 id="note-title">Name and notes</h2>
        <div className="form">
          <TextField path="name" label="Name of the project" />
          <TextField path="note" label="Notes" long />
        </div>
      </section>
    </>
  );
}
