// A bloom strip in words, for those who do not see it, and for its table.

import type { DaySpan, Strip } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import { fromDayOfYear, shortDay } from "../parts/dates";

/** "4 to 20 June" as two days in the locale's way; "" for nothing. */
export function spanWords(year: number, span: DaySpan | null, today: string): string {
  if (!span) return "";
  return m.range({ lo: shortDay(fromDayOfYear(year, Math.ceil(span[0])), today), hi: shortDay(fromDayOfYear(year, Math.floor(span[1])), today) });
}

/** The whole strip as one sentence or two. */
export function stripWords(strip: Strip, today: string): string {
  const say = (sentence: (inputs: { span: string }) => string, span: DaySpan | null): string =>
    span ? sentence({ span: spanWords(strip.year, span, today) }) : "";
  return [
    m.strip_year({ year: strip.year }),
    say(m.strip_opens, strip.openBand), say(m.strip_expected, strip.expected), say(m.strip_certain, strip.certain), say(m.strip_possible, strip.possible),
    m.strip_looks({ count: strip.looks.length }),
  ].filter(Boolean).join(" ");
}
