// Lengths in the garden's units. Everything is kept in centimetres; a person
// reads and types centimetres or inches.

import { m } from "../paraglide/messages.js";
import { locale } from "../words/language";

export type Units = "metric" | "imperial";

const CM_PER_INCH = 2.54; // exact, international inch (1959)
const INCHES_PER_FOOT = 12;
const METRES_FROM_CM = 300; // a tree reads better in metres
const FEET_FROM_INCHES = 36;

/** No record takes a height above this: taller trees are not planted in gardens. */
export const TALLEST_CM = 5000;

/** "92 cm", "4.5 m", "30 in" or "6 ft 3 in". */
export function length(cm: number, units: Units): string {
  if (units === "imperial") return inches(Math.round(cm / CM_PER_INCH));
  if (cm >= METRES_FROM_CM) return m.measure_m({ value: number(cm / 100, 1) });
  return m.measure_cm({ value: number(cm) });
}

/** "110 to 150 cm". */
export function lengthRange(lo: number, hi: number, units: Units): string {
  if (length(lo, units) === length(hi, units)) return length(hi, units);
  const metricSmall = units === "metric" && hi < METRES_FROM_CM;
  return m.range({ lo: metricSmall ? number(lo) : length(lo, units), hi: length(hi, units) });
}

/** How far off something is: "2.1 m" or "7 ft". */
export function distance(metres: number, units: Units): string {
  if (units === "metric") return m.measure_m({ value: number(metres, 1) });
  return m.measure_ft({ feet: number((metres * 100) / CM_PER_INCH / INCHES_PER_FOOT) });
}

function inches(total: number): string {
  if (total < FEET_FROM_INCHES) return m.measure_in({ value: number(total) });
  const feet = Math.floor(total / INCHES_PER_FOOT);
  const rest = total - feet * INCHES_PER_FOOT;
  return rest === 0 ? m.measure_ft({ feet: number(feet) }) : m.measure_ft_in({ feet: number(feet), inches: number(rest) });
}

const LITRES_PER_GALLON = 3.785411784; // US liquid gallon, exact (NIST Handbook 44, appendix C)

/** What a pot holds, as a person reads and types it: litres or gallons. */
export const pot = {
  unitWord: (units: Units): string => (units === "imperial" ? m.unit_gal() : m.unit_l()),
  fromL: (litres: number, units: Units): number => (units === "imperial" ? Number((litres / LITRES_PER_GALLON).toFixed(1)) : litres),
  toL: (value: number, units: Units): number => (units === "imperial" ? Number((value * LITRES_PER_GALLON).toFixed(2)) : value),
};

/** "−15 °C" or "5 °F"; a degree Fahrenheit is fine enough without decimals. */
export function temperature(celsius: number, units: Units, decimals = 0): string {
  const value = (units === "imperial" ? number(toFahrenheit(celsius)) : number(celsius, decimals)).replace("-", "−");
  return units === "imperial" ? m.temperature_f({ value }) : m.temperature_c({ value });
}

export const toFahrenheit = (celsius: number): number => (celsius * 9) / 5 + 32;
export const toCelsius = (fahrenheit: number): number => ((fahrenheit - 32) * 5) / 9;

/** A number as the app's locale writes it. */
export function number(value: number, decimals = 0): string {
  return new Intl.NumberFormat(locale(), { maximumFractionDigits: decimals }).format(value);
}

/** What a person types and steps in: whole centimetres or whole inches. */
export const entry = {
  /** Of a bed's sides. */
  sideUnit: (units: Units): string => (units === "imperial" ? m.unit_ft() : m.unit_m()),
  unit: (units: Units): string => (units === "imperial" ? m.unit_in() : m.unit_cm()),
  /** The unit as a word of a sentence: "in in" would not be read. */
  unitWord: (units: Units): string => (units === "imperial" ? m.unit_inches() : m.unit_cm()),
  fromCm: (cm: number, units: Units): number => Math.round(units === "imperial" ? cm / CM_PER_INCH : cm),
  toCm: (value: number, units: Units): number => (units === "imperial" ? Math.round(value * CM_PER_INCH * 10) / 10 : value),
  step: (value: number, units: Units): number => stepOf(value, units),
};

/** One tap changes a height by about the error of reading a stick beside a plant of that size (a choice of ours). */
function stepOf(value: number, units: Units): number {
  if (units === "imperial") return value < 80 ? 1 : 6;
  if (value < 30) return 1;
  return value < 200 ? 5 : 10;
}

const FEET_PER_METRE = 100 / CM_PER_INCH / INCHES_PER_FOOT;
const LOWEST_M = -430; // the shore of the Dead Sea
const HIGHEST_M = 6000; // above every town; the bounds of the garden's record

/** A height above the sea as a person types it: whole metres or whole feet. */
export const altitude = {
  unit: (units: Units): string => (units === "imperial" ? m.unit_ft() : m.unit_m()),
  fromM: (metres: number, units: Units): number => Math.round(units === "imperial" ? metres * FEET_PER_METRE : metres),
  toM: (value: number, units: Units): number => Math.round(units === "imperial" ? value / FEET_PER_METRE : value),
  holds: (metres: number): boolean => metres >= LOWEST_M && metres <= HIGHEST_M,
};
