/** Power spectra of real blocks of one length, with tables and room made once. */
export interface PowerSpectrum {
  readonly size: number;
  /**
   * |X[k]|^2 of `size` values beginning at `from` times the Hann window, k = 0 to size / 2, written into `power`. Values
   * past the end of `values` count as 0.
   */
  readonly into: (values: ArrayLike<number>, from: number, power: Float64Array) => void;
}

/** The Hann window, periodic: w[i] = (1 - cos(2 pi i / size)) / 2. */
export function hann(size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size));
}

/**
 * Power spectrum through a complex transform of half the length: even values as real and odd values as imaginary part,
 * radix 2, decimation in time (Cooley and Tukey, Mathematics of Computation 19, 1965, 297-301), then parted by symmetry.
 * `size` is a power of two, 8 or more. Throws RangeError otherwise.
 */
export function powerSpectrum(size: number): PowerSpectrum {
  if (!(size >= 8 && Number.isInteger(Math.log2(size))))
    throw new RangeError(`powerSpectrum: size is ${size}; it must be a power of two, 8 or more.`);
  const half = size / 2;
  const window = hann(size);
  const cos = new Float64Array(half);
  const sin = new Float64Array(half);
  for (let i = 0; i < half; i++) {
    cos[i] = Math.cos((2 * Math.PI * i) / size);
    sin[i] = -Math.sin((2 * Math.PI * i) / size);
  }
  const bits = Math.log2(half);
  const turned = new Uint32Array(half);
  for (let i = 1; i < half; i++) turned[i] = (turned[i >> 1] >> 1) | ((i & 1) << (bits - 1));
  const re = new Float64Array(half);
  const im = new Float64Array(half);

  function transform(): void {
    // The first two stages have turns of a quarter only, which need no products.
    for (let i = 0; i < half; i += 4) {
      const ar = re[i] + re[i + 1];
      const ai = im[i] + im[i + 1];
      const br = re[i] - re[i + 1];
      const bi = im[i] - im[i + 1];
      const cr = re[i + 2] + re[i + 3];
      const ci = im[i + 2] + im[i + 3];
      const dr = re[i + 2] - re[i + 3];
      const di = im[i + 2] - im[i + 3];
      re[i] = ar + cr;
      im[i] = ai + ci;
      re[i + 2] = ar - cr;
      im[i + 2] = ai - ci;
      re[i + 1] = br + di;
      im[i + 1] = bi - dr;
      re[i + 3] = br - di;
      im[i + 3] = bi + dr;
    }
    for (let span = 4; span < half; span *= 2) {
      const step = size / (2 * span);
      for (let at = 0; at < half; at += 2 * span) {
        for (let k = 0, t = 0; k < span; k++, t += step) {
          const a = at + k;
          const b = a + span;
          const xr = re[b] * cos[t] - im[b] * sin[t];
          const xi = re[b] * sin[t] + im[b] * cos[t];
          re[b] = re[a] - xr;
          im[b] = im[a] - xi;
          re[a] += xr;
          im[a] += xi;
        }
      }
    }
  }

  return {
    size,
    into(values, from, power) {
      const end = Math.min(half, Math.ceil((values.length - from) / 2));
      for (let i = 0; i < half; i++) {
        const j = turned[i];
        if (i >= end) re[j] = im[j] = 0;
        else {
          re[j] = values[from + 2 * i] * window[2 * i];
          im[j] = from + 2 * i + 1 < values.length ? values[from + 2 * i + 1] * window[2 * i + 1] : 0;
        }
      }
      transform();
      power[0] = (re[0] + im[0]) ** 2;
      power[half] = (re[0] - im[0]) ** 2;
      for (let k = 1; k < half; k++) {
        const m = half - k;
        const er = (re[k] + re[m]) / 2;
        const ei = (im[k] - im[m]) / 2;
        const or = (im[k] + im[m]) / 2;
        const oi = (re[m] - re[k]) / 2;
        const xr = er + or * cos[k] - oi * sin[k];
        const xi = ei + or * sin[k] + oi * cos[k];
        power[k] = xr * xr + xi * xi;
      }
    },
  };
}
