// Days as the app's locale writes them. Every function takes a locale for
// tests; screens leave it out. Days are "YYYY-MM-DD" and mean the garden's date.

import { locale as appLocale } from "../words/language";
import type { ISODay, ISOInstant, PartialDay } from "../words/ids";

type Locale = string | undefined;

const MS_PER_DAY = 86_400_000;

/** Noon of a civil day in UTC, so that no zone moves it to its neighbour. */
function noon(day: ISODay): Date {
  return new Date(`${day}T12:00:00Z`);
}

const formats = new Map<string, Intl.DateTimeFormat>();

/** Made once for each way of writing: to make one takes a slow phone longer than to draw a row. */
function formatOf(how: Intl.DateTimeFormatOptions, locale: Locale): Intl.DateTimeFormat {
  const name = JSON.stringify([locale ?? appLocale(), how]);
  const known = formats.get(name);
  if (known) return known;
  const made = new Intl.DateTimeFormat(locale ?? appLocale(), { ...how, timeZone: "UTC" });
  formats.set(name, made);
  return made;
}

function written(day: ISODay, how: Intl.DateTimeFormatOptions, locale: Locale): string {
  return formatOf(how, locale).format(noon(day));
}

/** "Friday 11 July". */
export function weekday(day: ISODay, locale?: Locale): string {
  return written(day, { weekday: "long", day: "numeric", month: "long" }, locale);
}

/** "12 June", with its year when that is not `today`'s. */
export function shortDay(day: ISODay, today: ISODay, locale?: Locale): string {
  const sameYear = day.slice(0, 4) === today.slice(0, 4);
  return written(day, { day: "numeric", month: "long", ...(sameYear ? {} : { year: "numeric" }) }, locale);
}

/** "12 June 2014". */
export function fullDay(day: ISODay, locale?: Locale): string {
  return written(day, { day: "numeric", month: "long", year: "numeric" }, locale);
}

/** A date with the precision it was given in: "2012", "April 2012" or "12 April 2012". */
export function partialDay(day: PartialDay, locale?: Locale): string {
  if (day.length === 4) return day;
  if (day.length === 7) return written(`${day}-15`, { month: "long", year: "numeric" }, locale);
  return fullDay(day as ISODay, locale);
}

/** "June", of a day of the year "06-15" or of a month's number. */
export function monthName(monthDay: string, locale?: Locale): string {
  return written(`2001-${monthDay.slice(0, 2)}-15` as ISODay, { month: "long" }, locale);
}

/** "J", the months' own letters. */
export function monthLetter(month: number, locale?: Locale): string {
  return written(`2001-${String(month).padStart(2, "0")}-15`, { month: "narrow" }, locale);
}

/**
 * What the clock on the spot showed: an instant with an offset is shown as its
 * observer saw it; one in universal time ("…Z") is the machine's, not anyone's,
 * and is shown by this phone's clock.
 */
function onTheSpot(instant: ISOInstant): string {
  if (!instant.endsWith("Z")) return instant;
  const at = new Date(instant);
  return new Date(at.getTime() - at.getTimezoneOffset() * 60_000).toISOString();
}

/** The time of day of an instant, as its observer's clock showed it: "10:42". */
export function clockTime(instant: ISOInstant, locale?: Locale): string {
  const shown = new Date(`2001-01-15T${onTheSpot(instant).slice(11, 16)}:00Z`);
  return formatOf({ hour: "numeric", minute: "2-digit" }, locale).format(shown);
}

/** The civil day of an instant, by the observer's clock. */
export function dayOf(instant: ISOInstant): ISODay {
  return onTheSpot(instant).slice(0, 10);
}

/** Whole days from one day to another. */
export function daysBetween(from: ISODay, to: ISODay): number {
  return Math.round((noon(to).getTime() - noon(from).getTime()) / MS_PER_DAY);
}

/** The day that is `days` after another. */
export function addDays(day: ISODay, days: number): ISODay {
  return new Date(noon(day).getTime() + Math.round(days) * MS_PER_DAY).toISOString().slice(0, 10);
}

/** The date of a day of the year, 1 January being 1; it may lie outside the year. */
export function fromDayOfYear(year: number, dayOfYear: number): ISODay {
  return addDays(`${year}-01-01`, dayOfYear - 1);
}

/** The day of `year` of a date, 1 January of that year being 1; below 1 or above 366 outside it. */
export function dayOfYear(day: ISODay, year = Number(day.slice(0, 4))): number {
  return daysBetween(`${year}-01-01`, day) + 1;
}
