/** Dates and instants as the garden sees them. */
import type { ISODay, ISOInstant } from "./ids";

/** The date in a time zone (IANA name; the phone's own when absent or unknown to it). */
export function dayIn(timeZone: string | undefined, atMs: number): ISODay {
  const at = new Date(atMs);
  try {
    return new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" }).format(at);
  } catch {
    return new Intl.DateTimeFormat("en-CA", { dateStyle: "short" }).format(at);
  }
}

/** RFC 3339 with the phone's own offset, to the second. */
export function instantHere(atMs: number): ISOInstant {
  const offset = -new Date(atMs).getTimezoneOffset();
  return withOffset(atMs, offset);
}

/** RFC 3339 with an offset in minutes east, to the second. */
export function withOffset(atMs: number, offsetMinutes: number): ISOInstant {
  const local = new Date(atMs + offsetMinutes * 60_000).toISOString().slice(0, "2026-06-02T09:15:00".length);
  return local + offsetText(offsetMinutes);
}

/** The same time of day on another date: how a garden whose date stands still notes the hour. */
export function onDay(instant: ISOInstant, day: ISODay): ISOInstant {
  return day + instant.slice(day.length);
}

function offsetText(minutes: number): string {
  const [hours, rest] = [Math.floor(Math.abs(minutes) / 60), Math.abs(minutes) % 60];
  return `${minutes < 0 ? "-" : "+"}${two(hours)}:${two(rest)}`;
}

function two(n: number): string {
  return String(n).padStart(2, "0");
}
