import type { PrecacheEntry } from "workbox-precaching";

const cacheName = "haulm-almanac";

/** The almanac of this version, from the phone or else the network; what came from the network is kept. */
export async function serveAlmanac(request: Request, entry: PrecacheEntry | undefined): Promise<Response> {
  if (!entry) return fetch(request);
  const cache = await caches.open(cacheName);
  const held = await cache.match(keyOf(entry));
  return held ?? fetchInto(cache, entry);
}

/** Stores the almanac of this version and drops those of earlier ones. */
export async function keepAlmanac(entry: PrecacheEntry | undefined): Promise<void> {
  if (!entry) return;
  const cache = await caches.open(cacheName);
  if (!(await cache.match(keyOf(entry)))) await fetchInto(cache, entry);
  await dropOthers(cache, entry);
}

/**
 * When an update is installed on a phone that has an almanac, the new one comes
 * along at once: else the phone could lose it by updating just before it goes
 * out of reach.
 */
export async function renewAlmanac(entry: PrecacheEntry | undefined): Promise<void> {
  if (!entry) return;
  const cache = await caches.open(cacheName);
  const some = await cache.keys();
  if (some.length > 0 && !(await cache.match(keyOf(entry)))) await fetchInto(cache, entry);
}

function keyOf(entry: PrecacheEntry): string {
  return `/almanac.wasm?revision=${entry.revision ?? ""}`;
}

async function fetchInto(cache: Cache, entry: PrecacheEntry): Promise<Response> {
  const response = await fetch(keyOf(entry));
  if (response.ok) await cache.put(keyOf(entry), response.clone());
  return response;
}

async function dropOthers(cache: Cache, entry: PrecacheEntry): Promise<void> {
  const current = new URL(keyOf(entry), location.origin).href;
  for (const request of await cache.keys()) {
    if (request.url !== current) await cache.delete(request);
  }
}
