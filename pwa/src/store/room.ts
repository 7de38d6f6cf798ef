/**
 * Room on the phone. What the server has whole may go, since it can be fetched
 * again; what is unsent never does. First originals go, then the larger previews,
 * and last those that lists show, each kind by when it was last shown.
 */
import type { GardenDatabase } from "./database";
import { bytesKey, type HeldPhoto, type Kept, type Version } from "./held";

/** The order in which versions go. */
const leaving: readonly Version[] = ["original", 1600, 320];

/** What is reckoned for a row that nobody has measured, bytes: a preview of 1600 px. */
const unmeasuredBytes = 300_000;

/** A row shown again within this time is not noted anew, milliseconds: lists are looked at often, and every note is a write. */
const notedMs = 3_600_000;

/** How much a garden's pictures take, by kind. */
export type Taken = Readonly<{ previews: number; originals: number }>;

/** What the bytes of pictures take, as far as they were measured. */
export async function taken(db: GardenDatabase): Promise<Taken> {
  const sum = { previews: 0, originals: 0 };
  await db.kept.each(({ key, size }) => {
    sum[versionIn(key) === "original" ? "originals" : "previews"] += size ?? unmeasuredBytes;
  });
  return sum;
}

/** Lets go until so many bytes are free, and gives how many are. */
export async function letGo(db: GardenDatabase, bytes: number): Promise<number> {
  return db.transaction("rw", db.photos, db.bytes, db.kept, db.unsettled, async () => {
    const longestUnseen = await db.kept.orderBy("shown").toArray();
    const needed = await neededHere(db);
    const going: string[] = [];
    let free = 0;
    for (const version of leaving) {
      for (const row of longestUnseen) {
        if (free >= bytes) break;
        if (versionIn(row.key) !== version || needed.has(row.key)) continue;
        going.push(row.key);
        free += row.size ?? unmeasuredBytes;
      }
    }
    await db.bytes.bulkDelete(going);
    await db.kept.bulkDelete(going);
    return free;
  });
}

/** The rows that this phone alone may have, or that something is still to be read from. */
async function neededHere(db: GardenDatabase): Promise<Set<string>> {
  const unsent = (await db.photos.where("done").equals(0).toArray()).flatMap(rowsOf);
  const unread = (await db.unsettled.toArray()).map(({ sha }) => bytesKey(sha, "original"));
  return new Set([...unsent, ...unread]);
}

/** An unsent picture keeps its sent previews too: they are what shows it. */
function rowsOf({ sha }: HeldPhoto): string[] {
  return leaving.map((version) => bytesKey(sha, version));
}

/** Notes what was shown, and how large it is. */
export async function noteShown(db: GardenDatabase, rows: ReadonlyMap<string, number>, nowMs: number): Promise<void> {
  await db.transaction("rw", db.kept, async () => {
    const held = await db.kept.bulkGet([...rows.keys()]);
    const stale = held.filter((row): row is Kept => row !== undefined && (row.size === null || nowMs - row.shown > notedMs));
    await db.kept.bulkPut(stale.map((row) => ({ ...row, size: rows.get(row.key)!, shown: nowMs })));
  });
}

function versionIn(key: string): Version {
  const version = key.slice(key.indexOf("/") + 1);
  return version === "original" ? version : (Number(version) as Version);
}

