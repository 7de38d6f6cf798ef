// No spade where something sleeps: what is said where one would dig.

import type { Finding } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import type { ISODay } from "../words/ids";
import { shortDay } from "./dates";

/** The warning at a planting that is not above the ground; "" where nothing sleeps. What is late to come up may be alive still. */
export function digWarning(findings: readonly Finding[], today: ISODay, locale?: string): string {
  if (findings.some(({ verdict }) => verdict === "not-up")) return m.dig_warning_maybe();
  const asleep = findings.find(({ verdict }) => verdict === "dormant");
  if (!asleep) return "";
  const until = asleep.evidence.find(({ say }) => say === "asleep-until")?.day;
  return until ? m.dig_warning_until({ day: shortDay(until, today, locale) }) : m.dig_warning();
}
