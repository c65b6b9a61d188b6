import { decimate, type Hum } from './hum.ts';

/** Half the length of sound from which one value of a hum line is taken [s]; tones 2 Hz off and more are left alone. */
const HALF_BLOCK_S = 0.5;

/**
 * The recording without its hum. Each line's size and phase is taken by demodulation under a Hann window of a second at
 * every half second and runs straight between, which follows drifting gain and a mains a little off its frequency.
 */
export function withoutHum(samples: Float32Array, rate: number, hum: Hum): Float32Array {
  const out = Float32Array.from(samples);
  const every = Math.max(1, Math.floor(rate / 2700));
  const slow = decimate(samples, every);
  const step = Math.round((HALF_BLOCK_S * rate) / every);
  const points = Math.floor(slow.length / step) + 1;
  for (const line_Hz of hum.lines_Hz) {
    const turn = (2 * Math.PI * line_Hz) / rate;
    const gain = every === 1 ? 1 : (Math.sin((turn * every) / 2) / (every * Math.sin(turn / 2))) ** 2;
    const re = new Float64Array(points);
    const im = new Float64Array(points);
    for (let p = 0; p < points; p++) {
      let [sr, si, sum] = [0, 0, 0];
      const low = Math.max(0, (p - 1) * step);
      const high = Math.min(slow.length, (p + 1) * step);
      for (let i = low; i < high; i++) {
        const weight = 0.5 + 0.5 * Math.cos((Math.PI * (i - p * step)) / step);
        // Value i of the slow signal has its middle at this place of the fast one.
        const angle = turn * (i * every + every - 1);
        sr += weight * slow[i] * Math.cos(angle);
        si -= weight * slow[i] * Math.sin(angle);
        sum += weight;
      }
      re[p] = sum > 0 ? (2 * sr) / sum / gain : 0;
      im[p] = sum > 0 ? (2 * si) / sum / gain : 0;
    }
    subtract(out, turn, step * every, every - 1, re, im);
  }
  return out;
}

/** Takes Re(c e^(i turn s)) from every sample s, c straight between its values at offset + p block. */
function subtract(
  out: Float32Array,
  turn: number,
  block: number,
  offset: number,
  re: Float64Array,
  im: Float64Array,
): void {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  for (let p = 0; p < re.length; p++) {
    const from = p === 0 ? 0 : offset + p * block;
    const to = p === re.length - 1 ? out.length : Math.min(out.length, offset + (p + 1) * block);
    const q = Math.min(re.length - 1, p + 1);
    const [dr, di] = [(re[q] - re[p]) / block, (im[q] - im[p]) / block];
    let cr = re[p] + dr * (from - offset - p * block);
    let ci = im[p] + di * (from - offset - p * block);
    let x = Math.cos(turn * from);
    let y = Math.sin(turn * from);
    for (let s = from; s < to; s++) {
      out[s] -= cr * x - ci * y;
      cr += dr;
      ci += di;
      const next = x * cos - y * sin;
      y = x * sin + y * cos;
      x = next;
    }
  }
}
