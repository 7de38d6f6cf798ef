import type { Place } from "../../store/held";

/** How long the phone may look for its place, and how old a place may be, milliseconds: nobody has walked far. */
const patienceMs = 6_000;
const freshMs = 15_000;

/** Where the phone is, or null when it does not know or may not say. Never rejects. */
export function placeOfPhone(): Promise<Place | null> {
  const geolocation = globalThis.navigator?.geolocation;
  if (!geolocation) return Promise.resolve(null);
  return new Promise((resolve) => {
    geolocation.getCurrentPosition(
      ({ coords }) => resolve({ lat: coords.latitude, lon: coords.longitude, accuracyM: coords.accuracy }),
      () => resolve(null),
      { enableHighAccuracy: true, timeout: patienceMs, maximumAge: freshMs },
    );
  });
}
