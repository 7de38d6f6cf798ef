/** What a picture says of itself: when and where it was taken. */
import type { ISOInstant } from "../../words/ids";
import { withOffset } from "../../words/days";
import type { Place } from "../../store/held";

export type Facts = Readonly<{
  /** When it was taken; null where the picture does not say. */
  taken: ISOInstant | null;
  place: Place | null;
}>;

/** Tag numbers of Exif 2.32 (CIPA DC-008-2019). */
const tag = { exifIfd: 0x8769, gpsIfd: 0x8825, dateTimeOriginal: 0x9003, offsetTimeOriginal: 0x9011, positioningError: 0x1f };
const position = [1, 2, 3, 4]; // latitude's and longitude's hemisphere and degrees

type Read = Readonly<{
  exif?: Readonly<Record<number, unknown>>;
  gps?: Readonly<Record<number, unknown>> & Readonly<{ latitude?: number; longitude?: number }>;
}>;

const nothing: Facts = { taken: null, place: null };

/** Reads a picture's own facts. A damaged or silent picture says nothing; this never rejects. */
export async function factsOf(bytes: ArrayBuffer): Promise<Facts> {
  try {
    const { parse } = await import("exifr/dist/lite.esm.mjs");
    const read = (await parse(bytes, {
      ifd0: { pick: [tag.exifIfd, tag.gpsIfd] },
      exif: { pick: [tag.dateTimeOriginal, tag.offsetTimeOriginal] },
      gps: { pick: [...position, tag.positioningError] },
      mergeOutput: false, translateKeys: false, translateValues: false, reviveValues: false,
    } as object)) as Read | undefined;
    return read ? { taken: takenIn(read.exif), place: placeIn(read.gps) } : nothing;
  } catch {
    return nothing;
  }
}

/** "2026:04:12 11:30:15" with "+02:00", or with the phone's own offset of that day where the camera wrote none. */
function takenIn(exif: Read["exif"]): ISOInstant | null {
  const written = /^(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)/.exec(String(exif?.[tag.dateTimeOriginal] ?? ""));
  if (!written) return null;
  const local = `${written[1]}-${written[2]}-${written[3]}T${written[4]}`;
  const offset = String(exif?.[tag.offsetTimeOriginal] ?? "");
  const known = /^[+-]\d\d:\d\d$/.test(offset);
  const ms = Date.parse(known ? local + offset : local);
  if (Number.isNaN(ms)) return null;
  return known ? local + offset : withOffset(ms, -new Date(ms).getTimezoneOffset());
}

/** Cameras without a fix write 0, 0 or divide by zero: both say nothing. */
function placeIn(gps: Read["gps"]): Place | null {
  const { latitude: lat, longitude: lon } = gps ?? {};
  if (!Number.isFinite(lat) || !Number.isFinite(lon) || (lat === 0 && lon === 0)) return null;
  if (Math.abs(lat!) > 90 || Math.abs(lon!) > 180) return null;
  const error = gps?.[tag.positioningError];
  return { lat: lat!, lon: lon!, ...(typeof error === "number" && error > 0 && { accuracyM: error }) };
}
