import type { HeightChart } from "../almanac/answers";
import { daysBetween } from "../parts/dates";

type Band = HeightChart["band"];

/** The likely heights on a day, read between the band's own days; null outside it. */
export function likelyAt(band: Band, day: string): Readonly<{ lo: number; hi: number }> | null {
  const after = band.findIndex((at) => at.day >= day);
  const next = band[after];
  if (!next) return null;
  if (next.day === day) return { lo: next.lo, hi: next.hi };
  const before = band[after - 1];
  if (!before) return null;
  const share = daysBetween(before.day, day) / daysBetween(before.day, next.day);
  return { lo: between(before.lo, next.lo, share), hi: between(before.hi, next.hi, share) };
}

function between(from: number, to: number, share: number): number {
  return from + (to - from) * share;
}
