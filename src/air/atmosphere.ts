import { GRAVITY } from '../quantities/constants.ts';
import { kelvinFromCelsius } from '../quantities/units.ts';

/** Gas constant of dry air [J/(kg K)] and the sea-level values of the standard. Source: ISO 2533:1975, clause 2. */
const GAS_CONSTANT = 287.05287;
const SEA_LEVEL_TEMPERATURE = 288.15;
const SEA_LEVEL_PRESSURE = 101_325;
const LAPSE_RATE = 0.0065;
const RATIO_OF_SPECIFIC_HEATS = 1.4;
/** Nominal earth radius for geopotential height [m]. Source: ISO 2533:1975. */
const EARTH_RADIUS = 6_356_766;

/** Air as the fan meets it. */
export interface Air {
  /** [kg/m3] */
  readonly density: number;
  /** Dynamic viscosity [Pa s] */
  readonly viscosity: number;
  /** [m/s] */
  readonly soundSpeed: number;
  /** [Pa] */
  readonly pressure: number;
  /** [K] */
  readonly temperature: number;
}

/**
 * Dry air at a height above sea level, with the temperature that is there (`temperature_C` left out: the standard's).
 * Pressure follows the standard atmosphere, so a warm day changes density but not pressure. Humidity is ignored: at
 * 30 C and full saturation density would be 1.6 % lower.
 * Range -500 to 11 000 m. Source: ISO 2533:1975 (troposphere), Sutherland viscosity with the standard's constants.
 */
export function atmosphere(altitude_m: number, temperature_C?: number): Air {
  const geopotential = (EARTH_RADIUS * altitude_m) / (EARTH_RADIUS + altitude_m);
  const standardTemperature = SEA_LEVEL_TEMPERATURE - LAPSE_RATE * geopotential;
  const pressure =
    SEA_LEVEL_PRESSURE *
    (standardTemperature / SEA_LEVEL_TEMPERATURE) ** (GRAVITY / (GAS_CONSTANT * LAPSE_RATE));
  const temperature = temperature_C === undefined ? standardTemperature : kelvinFromCelsius(temperature_C);
  return {
    density: pressure / (GAS_CONSTANT * temperature),
    viscosity: sutherlandViscosity(temperature),
    soundSpeed: Math.sqrt(RATIO_OF_SPECIFIC_HEATS * GAS_CONSTANT * temperature),
    pressure,
    temperature,
  };
}

/** Dynamic viscosity of air [Pa s] at `temperature` [K]. Source: Sutherland's law, constants of ISO 2533:1975. */
export function sutherlandViscosity(temperature: number): number {
  return (1.458e-6 * temperature ** 1.5) / (temperature + 110.4);
}
