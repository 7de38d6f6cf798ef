// What is said of the place where a planting stands: room, view, sun, frost and
// water, a sentence for each of the almanac's codes.

import type { Finding } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import { shortDay } from "./dates";
import type { Say } from "./finding-words";
import { length, number, temperature } from "./measure";

export const spotSayings: Readonly<Record<string, Say>> = {
  "room-taken": ({ share }) => (share === undefined ? null : m.e_room_taken({ percent: wholePercent(share) })),
  "room-will-be-taken": ({ share, year }) => (share === undefined ? null : roomToBeTaken(wholePercent(share), year)),
  "crowded-by": ({ what, share, cm }, { units }) =>
    what === undefined || share === undefined || cm === undefined ? null : m.e_crowded_by({ name: what, percent: wholePercent(share), tall: length(cm, units) }),
  "smothered-by": ({ what, share, cm, likelyCm }, { units }) =>
    what === undefined || share === undefined || cm === undefined || likelyCm === undefined
      ? null
      : m.e_smothered_by({ name: what, percent: wholePercent(share), tall: length(cm, units), own: length(likelyCm, units) }),
  "hidden-share": ({ share, from, to }, { today, locale }) =>
    share === undefined || !from || !to ? null : m.e_hidden_share({ percent: wholePercent(share), from: shortDay(from, today, locale), to: shortDay(to, today, locale) }),
  "hidden-by": ({ what, cm, likelyCm }, { units }) =>
    what === undefined || cm === undefined || likelyCm === undefined ? null : m.e_hidden_by({ name: what, tall: length(cm, units), own: length(likelyCm, units) }),
  "frost-below": ({ c, limitC, day }, { units, today, locale }) =>
    c === undefined || limitC === undefined || !day ? null : m.e_frost_below({ cold: temperature(c, units, 1), limit: temperature(limitC, units, 1), day: shortDay(day, today, locale) }),
  "nights-below": ({ count, day }, { today, locale }) => (count === undefined || !day ? null : m.e_nights_below({ count, day: shortDay(day, today, locale) })),
  "pot-margin": ({ c }, { units }) => (c === undefined ? null : m.e_pot_margin({ cold: temperature(c, units, 1) })),
  "fleece-margin": ({ c }, { units }) => (c === undefined ? null : m.e_fleece_margin({ cold: temperature(c, units, 1) })),
  "sun-hours": ({ hours, loHours, hiHours }) => (hours === undefined || loHours === undefined || hiHours === undefined ? null : sunWords(hours, loHours, hiHours)),
  "sun-halves": ({ before }) => (before === undefined ? null : m.e_sun_before({ before: number(before, 1) })),
  "root-water": ({ day, share, count }, { today, locale }) => (share === undefined || !day ? null : rootWater(shortDay(day, today, locale), wholePercent(share), count ?? 0)),
  "frost-on-buds": ({ c, day }, { units, today, locale }) => (c === undefined || !day ? null : m.e_frost_on_buds({ cold: temperature(c, units, 1), day: shortDay(day, today, locale) })),
  "small-store": () => m.e_small_store(),
  "no-watering-noted": () => m.e_no_watering_noted(),
  "water-assumes": ({ what }) => assumed(what),
};

function wholePercent(share: number): string {
  return number(Math.round(100 * share));
}

function roomToBeTaken(percent: string, year: number | undefined): string {
  return year === undefined ? m.e_room_will_be_taken({ percent }) : m.e_room_will_be_taken_by({ percent, year });
}

function rootWater(day: string, percent: string, days: number): string {
  return days > 0 ? m.e_root_water_days({ count: days, day, percent }) : m.e_root_water({ day, percent });
}

/** The nearer end of what its kind wants is what it lacks or has too much of. */
function sunWords(hours: number, lo: number, hi: number): string {
  return hours < lo ? m.e_sun_at_least({ hours: number(hours, 1), lo: number(lo) }) : m.e_sun_at_most({ hours: number(hours, 1), hi: number(hi) });
}

/** "it wants 10 litres", or "15 litres for each plant, 60 for all"; "" where that is not reckoned. */
export function waterWanted({ evidence }: Finding): string {
  const { litres, all } = evidence.find(({ say }) => say === "give-water") ?? {};
  if (litres === undefined) return "";
  const words = { count: litres, litres: number(litres, 1) };
  return all === undefined ? m.v_dry_wants(words) : m.v_dry_each({ ...words, all: number(all, 1) });
}

function assumed(what: string | undefined): string | null {
  const words: Readonly<Record<string, () => string>> = { soil: m.e_assumes_soil, amount: m.e_assumes_amount, "pot-size": m.e_assumes_pot_size };
  return words[what ?? ""]?.() ?? null;
}
