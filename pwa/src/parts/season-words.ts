// The garden's season in words: "Early summer runs 6 days late", with its error.

import type { Season, SeasonPart } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import type { ISODay } from "../words/ids";

export type SeasonWords = Readonly<{ line: string; small: string }>;

/** What the season does in the part of the year that the almanac speaks of; null while nothing tells. `south`: the garden lies south of the equator. */
export function seasonWords(season: Season | null, on: ISODay, south: boolean): SeasonWords | null {
  if (!season || season.now.plants === 0) return null;
  const { now } = season;
  const days = Math.round(now.days);
  const name = partName(within(on, now), south);
  const small = m.season_small({ give: Math.max(1, Math.round(now.sd)), count: now.plants });
  if (days === 0) return { line: m.season_to_time({ part: name }), small };
  return { line: days > 0 ? m.season_late({ part: name, count: days }) : m.season_early({ part: name, count: -days }), small };
}

/** The day itself, or the part's own end nearest to it. */
function within(on: ISODay, { from, to }: SeasonPart): ISODay {
  if (on < from) return from;
  return on > to ? to : on;
}

/** Meteorological seasons, each in three months; six months apart in the south. */
function partName(day: ISODay, south: boolean): string {
  const month = (Number(day.slice(5, 7)) - 1 + (south ? 6 : 0)) % 12;
  const names = [
    m.midwinter, m.late_winter, m.early_spring, m.midspring, m.late_spring, m.early_summer,
    m.high_summer, m.late_summer, m.early_autumn, m.mid_autumn, m.late_autumn, m.early_winter,
  ];
  return names[month]!();
}
