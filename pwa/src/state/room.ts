import type { Store } from "../store/store";
import type { Room } from "./contract";

/** What browsers tell of what a site stores; some split it by kind. */
type Estimate = StorageEstimate & { usageDetails?: { indexedDB?: number; caches?: number } };

/** Room that is left free for what will be written in the bed, bytes: some ten photographs with their previews. */
export const reserveBytes = 64 << 20;

/** What is kept on this phone by kind, and what room is left. */
export async function roomOf(store: Store): Promise<Room> {
  const [{ usage, quota, usageDetails }, pictures, app] = await Promise.all([estimate(), store.taken(), cachedBytes()]);
  const stored = usageDetails?.indexedDB ?? (usage === undefined ? null : usage - app);
  const records = stored === null ? null : Math.max(0, stored - pictures.previews - pictures.originals);
  return { ...pictures, records, app: usageDetails?.caches ?? app, left: leftIn(usage, quota) };
}

/** Bytes left, or null where the browser does not say. */
export async function roomLeft(): Promise<number | null> {
  const { usage, quota } = await estimate();
  return leftIn(usage, quota);
}

function leftIn(usage: number | undefined, quota: number | undefined): number | null {
  return usage === undefined || quota === undefined ? null : Math.max(0, quota - usage);
}

async function estimate(): Promise<Estimate> {
  return (await globalThis.navigator?.storage?.estimate?.().catch(() => ({}))) ?? {};
}

/** What the app's own files take, by their own word. */
async function cachedBytes(): Promise<number> {
  let sum = 0;
  for (const name of (await globalThis.caches?.keys().catch(() => [])) ?? []) {
    const cache = await caches.open(name);
    const answers = await cache.matchAll();
    for (const answer of answers) sum += Number(answer.headers.get("Content-Length") ?? 0);
  }
  return sum;
}
