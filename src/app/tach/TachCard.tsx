import { useEffect, useId, useMemo, useRef, useState } from 'react';
import { speedRangeOf } from '../../bench/tach/range.ts';
import { MOST_BLADES } from '../../bench/tach/tach.ts';
import { confidenceWords, rpmWords, tachWords, unevenWords } from '../../bench/tach/words.ts';
import { useApp } from '../state/store.ts';
import { TrackChart } from './TrackChart.tsx';
import { useTach } from './useTach.ts';

interface Props {
  /** Takes the speed over to the reading that is being entered; the button is there only with it. */
  readonly onUse?: (rpm: number) => void;
}

/** The speed of a fan by its sound: live, or from a recording. */
export function TachCard({ onUse }: Props) {
  const project = useApp((s) => s.project);
  const usual = useMemo(() => {
    const { low, high } = speedRangeOf(project);
    return { blades: project.fan.bladeCount, low: toTwoDigits(low), high: toTwoDigits(high) };
  }, [project]);
  const [own, setOwn] = useState<Partial<typeof usual>>({});
  const { blades, low, high } = { ...usual, ...own };
  const [fans, setFans] = useState(1);
  const { state, open, listen, stop, again } = useTach({ blades, expect_rpm: { low, high }, fans });
  const { phase, heard, about, trouble, loudness } = state;
  const result = heard?.result ?? null;
  const rpm = result?.rpm ?? null;
  const file = useRef<HTMLInputElement>(null);
  const repeat = useRef(again);
  useEffect(() => {
    repeat.current = again;
  });
  useEffect(() => {
    void repeat.current();
  }, [blades, low, high, fans]);
  const uneven = heard?.tones ? unevenWords(heard.tones) : null;

  return (
    <section className="card tach" aria-labelledby="tach-title" aria-busy={phase === 'working'}>
      <h2 id="tach-title">Speed by sound</h2>
      <p className="caution">
        The fan runs while you listen. Tie it down, wear eye and ear protection, keep fingers, hair and cords
        away, and stand clear of the plane of the rotor: hold the phone at arm’s length, a little off the axis
        and out of the jet. Local rules come first.
      </p>
      <div className="tach-reading" role="status">
        {result && rpm !== null ? (
          <>
            <strong data-tach="rpm">{rpmWords(rpm)}</strong>
            <span>
              rpm, {phase === 'listening' ? 'now' : `from ${about}`}
              <br />
              right with a chance of {confidenceWords(result.confidence)}
            </span>
          </>
        ) : (
          <>
            <strong aria-hidden="true">–</strong>
            <span>
              {phase === 'asking'
                ? 'The browser asks for the microphone.'
                : phase === 'working'
                  ? 'Listening through the recording.'
                  : phase === 'listening'
                    ? 'Listening; no fan found yet.'
                    : result
                      ? `No fan found in ${about}.`
                      : 'No sound yet.'}
            </span>
          </>
        )}
      </div>
      {phase === 'listening' && (
        <meter className="tach-loudness" aria-label="Loudness" min={0} max={1} value={loudness} />
      )}
      <div className="tach-buttons">
        {phase === 'listening' ? (
          <button className="chief" onClick={() => void stop()}>
            Stop and read the whole take
          </button>
        ) : (
          <button className="chief" disabled={phase !== 'idle'} onClick={() => void listen()}>
            Listen with the microphone
          </button>
        )}
        <button disabled={phase !== 'idle'} onClick={() => file.current?.click()}>
          Open a recording
        </button>
        <input
          ref={file}
          className="unseen"
          type="file"
          tabIndex={-1}
          aria-label="Recording of the fan"
          accept="audio/*,video/*,.wav"
          onChange={({ currentTarget }) => {
            const [chosen] = currentTarget.files ?? [];
            if (chosen) void open(chosen);
            currentTarget.value = '';
          }}
        />
        {onUse && rpm !== null && phase !== 'working' && (
          <button onClick={() => onUse(Math.round(rpm))}>Use {rpmWords(rpm)} rpm</button>
        )}
      </div>
      <p className="tach-private">
        The browser asks before it opens the microphone. Nothing leaves this machine: the sound is read in
        this page and forgotten with it.
      </p>
      {trouble && (
        <p className="caution" role="alert">
          {trouble}
        </p>
      )}
      {result && phase !== 'listening' && (
        <>
          {result.found && <TrackChart result={result} />}
          <ul className="tach-words">
            {[...tachWords(result, blades), ...(uneven ? [uneven] : [])].map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </>
      )}
      <div className="tach-known">
        <Whole
          label="Blades"
          value={blades}
          min={1}
          max={MOST_BLADES}
          onChange={(v) => setOwn({ ...own, blades: v })}
        />
        <Whole
          label="Slowest, rpm"
          value={low}
          min={10}
          max={high - 1}
          onChange={(v) => setOwn({ ...own, low: v })}
        />
        <Whole
          label="Fastest, rpm"
          value={high}
          min={low + 1}
          max={500_000}
          onChange={(v) => setOwn({ ...own, high: v })}
        />
        <Whole label="Fans running" value={fans} min={1} max={12} onChange={setFans} />
        {Object.keys(own).length > 0 && <button onClick={() => setOwn({})}>As in the project</button>}
      </div>
    </section>
  );
}

const toTwoDigits = (value: number): number => Number(value.toPrecision(2));

interface WholeProps {
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly onChange: (value: number) => void;
}

/** A whole number that counts when the field is left; what is outside its range is said beside it and changes nothing. */
function Whole({ label, value, min, max, onChange }: WholeProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const text = (typed ?? '').trim();
  const number = /^\d{1,6}$/.test(text) ? Number(text) : NaN;
  const wrong = typed !== null && !(number >= min && number <= max);
  const commit = () => {
    if (typed !== null && !wrong && number !== value) onChange(number);
    if (!wrong) setTyped(null);
  };
  return (
    <div className="tach-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        inputMode="numeric"
        autoComplete="off"
        value={typed ?? String(value)}
        aria-invalid={wrong || undefined}
        aria-describedby={wrong ? `${id}-why` : undefined}
        onChange={({ target }) => setTyped(target.value)}
        onBlur={commit}
        onKeyDown={({ key }) => {
          if (key === 'Enter') commit();
          if (key === 'Escape') setTyped(null);
        }}
      />
      {wrong && (
        <small id={`${id}-why`} role="alert">
          A whole number from {min} to {max}.
        </small>
      )}
    </div>
  );
}
