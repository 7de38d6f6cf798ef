// What is expected of a kind, as a gardener says it.

import { m } from "../paraglide/messages.js";
import type { Kind, Span } from "../words/records";
import { length, lengthRange, temperature, type Units } from "./measure";
import { monthName } from "./dates";

export type Fact = readonly [word: string, value: string];

/** Hours of direct sun a day in the growing season (common practice): full sun from six, part shade from three. */
const FULL_SUN_H = 6, PART_SHADE_H = 3;

const lightWord = (hours: number): string => (hours >= FULL_SUN_H ? m.light_full() : hours >= PART_SHADE_H ? m.light_part() : m.light_shade());

/** "part shade to full sun", from the fewest hours to what is beyond full sun. */
export function lightWords([lo, hi]: readonly [number, number]): string {
  const [from, to] = [lightWord(lo), lightWord(hi)];
  return from === to ? to : m.light_to({ from, to });
}

const spanWords = ({ from, to }: Span): string => {
  const [first, last] = [monthName(from), monthName(to)];
  return first === last ? first : m.expected_span({ from: first, to: last });
};

function sizeWords({ heightCm, spreadCm }: Kind, units: Units): string {
  const range = ([lo, hi]: readonly [number, number]): string => (lo === hi ? length(hi, units) : lengthRange(lo, hi, units));
  if (heightCm && spreadCm) return m.expected_size_words({ height: range(heightCm), spread: range(spreadCm) });
  if (heightCm) return m.expected_height_words({ height: range(heightCm) });
  return spreadCm ? m.expected_spread_words({ spread: range(spreadCm) }) : "";
}

export function expectedOf(kind: Kind, units: Units): readonly Fact[] {
  const flower = (kind.bloom ?? []).map(spanWords).join(", ");
  const years = kind.yearsToSize ? m.expected_years({ count: kind.yearsToSize }) : "";
  const facts: Fact[] = [
    [m.expected_flower(), flower],
    [m.expected_size(), [sizeWords(kind, units), years].filter(Boolean).join("; ")],
    [m.expected_light(), kind.sunHours ? lightWords(kind.sunHours) : ""],
    [m.expected_hardy(), kind.minWinterC === undefined ? "" : m.expected_hardy_words({ temperature: temperature(kind.minWinterC, units) })],
  ];
  return facts.filter(([, value]) => value);
}
