/** Standard acceleration of free fall [m/s2]. Source: CGPM 1901, resolution 2. */
export const GRAVITY = 9.80665;

/** Absolute zero on the Celsius scale [K]. Source: ISO 80000-5. */
export const CELSIUS_ZERO_K = 273.15;
