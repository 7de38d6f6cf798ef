// What a keeper types about the garden as a whole, as the record wants it.

import type { Bed, Position } from "../words/records";
import { numberTyped } from "./number-typed";

const ANGLE = String.raw`([-−+]?\d{1,3}(?:[.,]\d+)?)\s*°?\s*(?:([0-5]?\d(?:[.,]\d+)?)\s*[′'’]\s*)?`;
const PLACE = new RegExp(`^${ANGLE}([NS]?)\\s*[;,\\s]\\s*${ANGLE}([EW]?)$`, "iu");

/**
 * Latitude and longitude as maps write them: "52.21, 0.12", "52.21 N 0.12 W",
 * "52,21; 0,12", "52° 12′ N, 0° 7′ E"; null for anything else, and for what lies off the globe.
 */
export function placeOf(text: string): Position | null {
  const parts = PLACE.exec(text.trim());
  if (!parts) return null;
  const [lat, lon] = [degrees(parts[1]!, parts[2], /s/iu.test(parts[3]!)), degrees(parts[4]!, parts[5], /w/iu.test(parts[6]!))];
  return Math.abs(lat) <= 90 && Math.abs(lon) <= 180 ? { lat, lon } : null;
}

function degrees(whole: string, minutes: string | undefined, negative: boolean): number {
  const [value, rest] = [numberTyped(whole)!, numberTyped(minutes ?? "0")! / 60];
  const size = Math.abs(value) + rest;
  return negative || value < 0 ? -size : size;
}

/** "52.21, 0.12"; "" while the place is not known. */
export function placeText({ lat, lon }: Partial<Position>): string {
  return lat === undefined || lon === undefined ? "" : `${lat}, ${lon}`;
}

/** Four decimals of a degree are about 11 m: near enough for a climate, and no nearer than needed. */
const PLACE_DECIMALS = 4;

/** A position as it is kept. */
export function roundedPlace({ lat, lon }: Position): Position {
  return { lat: Number(lat.toFixed(PLACE_DECIMALS)), lon: Number(lon.toFixed(PLACE_DECIMALS)) };
}

/** The `order` of one more bed, at the end of the round. */
export function orderLast(beds: readonly Pick<Bed, "order">[]): number {
  return Math.max(0, ...beds.map(({ order }) => order ?? 0)) + 1;
}

/** The zone that this phone is set to. */
export function zoneOfPhone(): string {
  return new Intl.DateTimeFormat().resolvedOptions().timeZone;
}

/** Zones to choose from, with the one that is set and the phone's own whatever the browser lists. */
export function timeZones(set: string | undefined): readonly string[] {
  return [...new Set([...Intl.supportedValuesOf("timeZone"), zoneOfPhone(), set ?? "UTC", "UTC"])].sort();
}
