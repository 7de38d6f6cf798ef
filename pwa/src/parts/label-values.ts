// Values as plant labels print them, read as the record wants them; and back again.

import { toCelsius, toFahrenheit, type Units } from "./measure";
import { numberTyped } from "./number-typed";

const CM: Readonly<Record<string, number>> = { cm: 1, m: 100, in: 2.54, ins: 2.54, inch: 2.54, inches: 2.54, '"': 2.54, "″": 2.54, ft: 30.48, feet: 30.48, foot: 30.48, "'": 30.48, "′": 30.48 };
const NUMBER = String.raw`(\d+(?:[.,]\d+)?)`;
const UNIT = String.raw`(cm|m|ins?|inch(?:es)?|ft|feet|foot|["″'′])?`;
const RANGE = new RegExp(String.raw`^${NUMBER}\s*${UNIT}(?:\s*(?:-|–|to|à)\s*${NUMBER}\s*${UNIT})?$`, "iu");
const FEET_AND_INCHES = new RegExp(String.raw`^${NUMBER}\s*(?:ft|feet|foot|['′])\s*${NUMBER}\s*(?:ins?|inch(?:es)?|["″])?$`, "iu");

/** Labels print the most that a plant reaches; the least is then taken to be four fifths of it (a choice of ours). */
const LEAST_OF_MOST = 0.8;
const TALLEST_CM = 5000; // as the record takes it

const value = (text: string): number => numberTyped(text)!;

/** "60–90 cm", "1.5 m", "90", "2 ft 6 in", in centimetres; a bare number is in the garden's unit. Null for what cannot be read. */
export function sizeTyped(text: string, units: Units): readonly [lo: number, hi: number] | null {
  const mixed = FEET_AND_INCHES.exec(text.trim());
  if (mixed) return within(null, value(mixed[1]!) * CM["ft"]! + value(mixed[2]!) * CM["in"]!);
  const parts = RANGE.exec(text.trim());
  if (!parts) return null;
  const [, first = "", unit, second, last] = parts;
  const its = (own: string | undefined): number => CM[(own ?? last ?? unit ?? (units === "imperial" ? "in" : "cm")).toLowerCase()]!;
  return second === undefined ? within(null, value(first) * its(unit)) : within(value(first) * its(unit), value(second) * its(last ?? unit));
}

function within(least: number | null, most: number): readonly [number, number] | null {
  const lo = least ?? most * LEAST_OF_MOST;
  return lo > 0 && lo <= most && most <= TALLEST_CM ? [Math.round(lo), Math.round(most)] : null;
}

/** As a person would type it: "60–90"; one number where the least is only what was taken for it. */
export function sizeText(range: readonly [number, number] | undefined, units: Units): string {
  if (!range) return "";
  const [lo, hi] = range.map((cm) => Math.round(units === "imperial" ? cm / CM["in"]! : cm)) as [number, number];
  return Math.round(range[1] * LEAST_OF_MOST) === range[0] ? String(hi) : `${lo}–${hi}`;
}

/**
 * The coldest that a plant stands, °C, by the ratings that labels print: H1c to H7
 * as the British trade prints them (Royal Horticultural Society, 2012: the lower
 * end of each, and for H7 its upper end, which is all that it says).
 */
const H_RATINGS: Readonly<Record<string, number>> = { h1a: 15, h1b: 10, h1c: 5, h2: 1, h3: -5, h4: -10, h5: -15, h6: -20, h7: -20 };

const DEGREES = /^([-−–]?\s*\d{1,2}(?:[.,]\d)?)\s*°?\s*([cf])?$/iu;
const ZONE = /^(?:usda\s*)?zone\s*(\d{1,2})\s*([ab])?/iu;

/** "H5", "zone 7b", "−15 °C" or "5 °F", in °C; a bare number is in the garden's unit. Null for what cannot be read. */
export function hardinessTyped(text: string, units: Units): number | null {
  const typed = text.trim();
  const rated = H_RATINGS[typed.toLowerCase().replaceAll(" ", "")];
  if (rated !== undefined) return rated;
  const zone = ZONE.exec(typed);
  if (zone) return zoneC(Number(zone[1]), zone[2]);
  const degrees = DEGREES.exec(typed);
  if (!degrees) return null;
  const number = value(degrees[1]!.replace(/^[-−–]\s*/u, "-"));
  const fahrenheit = (degrees[2] ?? (units === "imperial" ? "f" : "c")).toLowerCase() === "f";
  return rounded(fahrenheit ? toCelsius(number) : number);
}

/** The cold end of a zone: ten degrees Fahrenheit each, zone 1 from −60, half zones of five (USDA Plant Hardiness Zone Map, 2023). */
function zoneC(zone: number, half: string | undefined): number | null {
  return zone >= 1 && zone <= 13 ? rounded(toCelsius(-60 + 10 * (zone - 1) + (half?.toLowerCase() === "b" ? 5 : 0))) : null;
}

/** What the record takes: −60 to 20 °C. */
const rounded = (celsius: number): number | null => (celsius >= -60 && celsius <= 20 ? Math.round(celsius * 10) / 10 : null);

export function hardinessText(celsius: number | undefined, units: Units): string {
  if (celsius === undefined) return "";
  const text = units === "imperial" ? `${Math.round(toFahrenheit(celsius))} °F` : `${celsius} °C`;
  return text.replace("-", "−");
}
