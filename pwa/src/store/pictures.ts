/** Pictures taken on this phone: their bytes, previews and how far they have travelled. */
import type { Sha256 } from "../words/ids";
import type { GardenDatabase } from "./database";
import { durably } from "./durably";
import { bytesKey, widths, type HeldBytes, type HeldPhoto, type Version, type Width } from "./held";

/** The bytes of one version, or undefined when the phone does not have them. */
export function bytesOf(db: GardenDatabase, sha: Sha256, version: Version): Promise<HeldBytes | undefined> {
  return durably(db, () => db.bytes.get(bytesKey(sha, version)));
}

/** Keeps a preview that came from the server, for the next time without a network. */
export async function keepPreview(db: GardenDatabase, sha: Sha256, width: Width, type: string, bytes: ArrayBuffer): Promise<void> {
  await durably(db, () => db.bytes.put({ key: bytesKey(sha, width), type, bytes }));
}

/** Adds the previews made of a picture that is kept already. */
export async function addPreviews(db: GardenDatabase, sha: Sha256, previews: ReadonlyMap<Width, ArrayBuffer>): Promise<void> {
  const bytes = [...previews].map(([width, bytes]) => ({ key: bytesKey(sha, width), type: "image/jpeg", bytes }));
  await durably(db, () => db.transaction("rw", db.photos, db.bytes, async () => {
    const photo = await db.photos.get(sha);
    if (!photo) return;
    await db.bytes.bulkPut(bytes);
    await db.photos.put({ ...photo, previews: widths.filter((width) => previews.has(width) || photo.previews.includes(width)) });
  }));
}

/** Pictures of which the server lacks something, oldest first; failed ones are among them. */
export async function unsentPhotos(db: GardenDatabase): Promise<HeldPhoto[]> {
  const photos = await durably(db, () => db.photos.filter((photo) => !photo.done).toArray());
  return photos.sort((a, b) => (a.made < b.made ? -1 : a.made > b.made ? 1 : 0));
}

/** Pictures whose previews were not made because the page was closed in between. */
export function withoutPreviews(db: GardenDatabase): Promise<HeldPhoto[]> {
  return durably(db, () => db.photos.filter((photo) => photo.previews.length === 0 && !photo.unreadable && !photo.done).toArray());
}

/** Notes progress. When all has arrived the original's bytes are let go: the previews stay. */
export async function progress(db: GardenDatabase, sha: Sha256, change: Partial<HeldPhoto>): Promise<void> {
  await durably(db, () => db.transaction("rw", db.photos, db.bytes, async () => {
    const photo = await db.photos.get(sha);
    if (!photo) return;
    await db.photos.put({ ...photo, ...change });
    if (change.done) await db.bytes.delete(bytesKey(sha, "original"));
  }));
}

/** Lets pictures that failed be tried again, because a person asked. */
export async function retry(db: GardenDatabase): Promise<void> {
  await durably(db, () => db.photos.filter((photo) => photo.failed !== undefined).modify((photo, row) => {
    const { failed: _, ...again } = photo;
    row.value = again;
  }));
}
