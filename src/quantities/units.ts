import { CELSIUS_ZERO_K } from './constants.ts';

/** Conversions between the units people use at the edge and the SI units used inside. */
export const metresFromMillimetres = (length_mm: number): number => length_mm * 1e-3;
export const millimetresFromMetres = (length_m: number): number => length_m * 1e3;
export const kilogramsFromGrams = (mass_g: number): number => mass_g * 1e-3;
export const gramsFromKilograms = (mass_kg: number): number => mass_kg * 1e3;
export const radiansFromDegrees = (angle_deg: number): number => (angle_deg * Math.PI) / 180;
export const degreesFromRadians = (angle_rad: number): number => (angle_rad * 180) / Math.PI;
/** Angular speed [rad/s] from revolutions a minute. */
export const angularSpeedFromRpm = (speed_rpm: number): number => (speed_rpm * Math.PI) / 30;
/** Revolutions a minute from angular speed [rad/s]. */
export const rpmFromAngularSpeed = (omega: number): number => (omega * 30) / Math.PI;
export const kelvinFromCelsius = (temperature_C: number): number => temperature_C + CELSIUS_ZERO_K;
