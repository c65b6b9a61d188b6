import { useRef, useState } from 'react';
import { toneChange, type ToneChange } from '../../bench/tach/tones.ts';
import type { Recorded } from '../worker/recorded.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { Said } from '../craft/Said.tsx';
import { useApp } from '../state/store.ts';
import { askStudy } from '../worker/study.ts';
import { decoded } from './player.ts';

interface Take extends Recorded {
  readonly name: string;
}

const ORDINALS = ['First recording', 'Second recording, taken alike'] as const;

/** What one or two recordings show: tones against each other, blades that are unlike, what changed between two builds. */
export function RecordingCard() {
  const [takes, setTakes] = useState<readonly (Take | null)[]>([null, null]);
  const [said, setSaid] = useState<string | null>(null);
  const [working, setWorking] = useState(false);
  const hear = async (file: File, place: number) => {
    setWorking(true);
    setSaid(null);
    try {
      const { samples, sampleRate } = await decoded(await file.arrayBuffer());
      const { project, assessment } = useApp.getState();
      const full = assessment?.fan.full.rpm ?? 0;
      const heard = await askStudy((at) =>
        at.hearTones(samples, sampleRate, project.fan.bladeCount, full > 0 ? full : null),
      );
      setTakes((old) => old.map((take, i) => (i === place ? { ...heard, name: file.name } : take)));
    } catch {
      setSaid(`${file.name} is no recording that this browser can play; WAV, M4A, MP3 and OGG usually are.`);
    }
    setWorking(false);
  };
  const [first, second] = takes;
  const change = first?.tones && second?.tones ? toneChange(first.tones, second.tones) : null;
  return (
    <section className="card" aria-labelledby="recording-title" aria-busy={working}>
      <h3 id="recording-title">
        From a recording <em>a phone will do; the file stays on this computer</em>
      </h3>
      <p>
        Hold the phone a hand’s width or two beside the duct, out of the jet and out of the plane of the
        rotor, and record three seconds or more at a steady throttle. For a second recording keep place, phone
        and throttle: only then does a change mean anything. Levels against each other are what it gives; how
        loud it is in dB(A) needs a calibrated meter.
      </p>
      <p className="parts-foot">
        {ORDINALS.map((label, i) => (
          <Picker key={label} label={label} busy={working} onFile={(file) => void hear(file, i)} />
        ))}
        {working && <span>Listening…</span>}
      </p>
      {said && <p role="status">{said}</p>}
      <div className="versus">
        {takes.map((take, i) => take && <TakeView key={ORDINALS[i]} take={take} />)}
      </div>
      {change && <Said label="From the first to the second" texts={changeTexts(change)} />}
    </section>
  );
}

function Picker({
  label,
  busy,
  onFile,
}: {
  readonly label: string;
  readonly busy: boolean;
  readonly onFile: (file: File) => void;
}) {
  const picker = useRef<HTMLInputElement>(null);
  return (
    <>
      <button disabled={busy} onClick={() => picker.current?.click()}>
        {label}…
      </button>
      <input
        ref={picker}
        type="file"
        accept="audio/*,.wav"
        aria-label={label}
        hidden
        onChange={(e) => {
          const file = e.target.files?.[0];
          e.target.value = '';
          if (file) onFile(file);
        }}
      />
    </>
  );
}

function TakeView({ take: { name, words, tones } }: { readonly take: Take }) {
  const loudest = Math.max(...(tones?.multiples.map((t) => t.level_dB) ?? [0]));
  return (
    <div>
      <Said label={name} texts={words} />
      {tones && (
        <table className="figure-table">
          <caption>Blade tones against the strongest</caption>
          <thead>
            <tr>
              <th scope="col">Blade passing</th>
              <th scope="col">Hz</th>
              <th scope="col">dB</th>
            </tr>
          </thead>
          <tbody>
            {tones.multiples.map((t) => (
              <tr key={t.order}>
                <th scope="row">{t.multiple} ×</th>
                <td>{n(t.frequency_Hz, 3)}</td>
                <td>
                  {t.overNoise_dB < 3
                    ? 'in the noise'
                    : String(Math.round(t.level_dB - loudest)).replace('-', '−')}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
}

function changeTexts({ tones_dB, rest_dB, uneven_dB, multiples }: ToneChange): string[] {
  const way = (dB: number) =>
    Math.abs(dB) < 0.5 ? 'as loud as before' : `${n(Math.abs(dB), 2)} dB ${dB < 0 ? 'quieter' : 'louder'}`;
  const texts = [`The blade tones together are ${way(tones_dB)}, everything else is ${way(rest_dB)}.`];
  if (multiples.length > 0)
    texts.push(`Tone by tone: ${multiples.map((m) => `${m.multiple} × ${way(m.change_dB)}`).join(', ')}.`);
  if (uneven_dB !== null && Math.abs(uneven_dB) >= 0.5)
    texts.push(
      uneven_dB < 0
        ? `Tones once a turn stand ${n(-uneven_dB, 2)} dB lower against the blade tones: the blades became more alike.`
        : `Tones once a turn stand ${n(uneven_dB, 2)} dB higher against the blade tones: the blades became less alike.`,
    );
  texts.push('Changes of a dB or two come from holding the phone elsewhere; they mean nothing yet.');
  return texts;
}
