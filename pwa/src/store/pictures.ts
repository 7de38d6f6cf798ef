/** Pictures taken on this phone: their bytes, previews and how far they have travelled. */
import type { Sha256 } from "../words/ids";
import type { Ref } from "../words/records";
import type { GardenDatabase } from "./database";
import { durably } from "./durably";
import { bytesKey, isSound, widths, type HeldBytes, type HeldPhoto, type Unsettled, type Version, type Width } from "./held";
import { shownInside } from "./reading";
import type { Picture, Settled } from "./writing";

const versions: readonly Version[] = [...widths, "original"];

/**
 * Inside a transaction: keeps pictures. One that is here already goes on as it
 * was, however far it has travelled; one that was given up, or that failed, begins
 * anew. Either notes all entries that speak of it.
 */
export async function keepPictures(db: GardenDatabase, pictures: readonly Picture[]): Promise<void> {
  for (const { photo, bytes, unsettled } of pictures) {
    if (unsettled) await db.unsettled.put(unsettled);
    const held = await db.photos.get(photo.sha);
    const goesOn = held !== undefined && (await isWhole(db, held));
    const refs = held ? [held.ref, ...(held.also ?? []), photo.ref] : [photo.ref];
    await db.photos.put(spokenOfBy(goesOn ? held : photo, refs));
    if (!goesOn) await putBytes(db, bytes);
  }
}

/** Whether a picture is with the server, or on its way there with all its bytes here. */
async function isWhole(db: GardenDatabase, { sha, done, givenUp, failed }: HeldPhoto): Promise<boolean> {
  if (givenUp || failed) return false;
  return done === 1 || (await db.kept.get(bytesKey(sha, "original"))) !== undefined;
}

function spokenOfBy(photo: HeldPhoto, refs: readonly Ref[]): HeldPhoto {
  const also = new Set(refs);
  also.delete(photo.ref);
  return also.size > 0 ? { ...photo, also: [...also] } : photo;
}

/** Inside a transaction, after their entry was taken back: lets pictures go that no other entry speaks of. */
export async function dropPictures(db: GardenDatabase, shas: readonly Sha256[]): Promise<void> {
  for (const photo of await db.photos.bulkGet([...shas])) {
    if (!photo) continue;
    const [ref, ...also] = await speaking(db, photo);
    if (ref) await db.photos.put({ ...photo, ref, also });
    else await Promise.all([db.photos.delete(photo.sha), dropBytes(db, versions.map((version) => bytesKey(photo.sha, version)))]);
  }
}

/** The entries that still speak of a picture; one that was taken away does too, since that can be undone. */
async function speaking(db: GardenDatabase, { sha, ref, also = [] }: HeldPhoto): Promise<Ref[]> {
  const refs = [ref, ...also];
  const shown = await shownInside(db, refs);
  return refs.filter((_, i) => ["photos", "voice"].some((field) => ((shown[i]?.fields[field] ?? []) as readonly Sha256[]).includes(sha)));
}

async function putBytes(db: GardenDatabase, rows: readonly HeldBytes[]): Promise<void> {
  await db.bytes.bulkPut([...rows]);
  await db.kept.bulkPut(rows.map(({ key, bytes }) => ({ key, size: bytes.byteLength, shown: 0 })));
}

async function dropBytes(db: GardenDatabase, keys: readonly string[]): Promise<void> {
  await db.bytes.bulkDelete([...keys]);
  await db.kept.bulkDelete([...keys]);
}

/** Pictures of which something is to be found out. */
export function unsettledPictures(db: GardenDatabase): Promise<Unsettled[]> {
  return durably(db, () => db.unsettled.toArray());
}

/** Inside a transaction: notes what is still open about a picture. False when nothing was any more. */
export async function settleInside(db: GardenDatabase, { row: { sha, ref }, left }: Settled): Promise<boolean> {
  if (!(await db.unsettled.get([sha, ref]))) return false;
  if (left) await db.unsettled.put(left);
  else await db.unsettled.delete([sha, ref]);
  await letOriginalGo(db, sha);
  return true;
}

/** Where the phone was when it took a picture, as soon as it knows. */
export async function notePlace(db: GardenDatabase, { sha, ref }: Unsettled, here: Unsettled["here"]): Promise<void> {
  await durably(db, () => db.unsettled.update([sha, ref], { here }));
}

/** Inside a transaction: an original goes when the server has it and nobody wants to read its time and place any more. */
async function letOriginalGo(db: GardenDatabase, sha: Sha256): Promise<void> {
  const wanted = await db.unsettled.where("sha").equals(sha).filter(({ moment }) => !moment).count();
  const photo = await db.photos.get(sha);
  if (photo?.done && !photo.givenUp && !isSound(photo) && wanted === 0) await dropBytes(db, [bytesKey(sha, "original")]);
}

/** The bytes of one version, or undefined when the phone does not have them. */
export function bytesOf(db: GardenDatabase, sha: Sha256, version: Version): Promise<HeldBytes | undefined> {
  return durably(db, () => db.bytes.get(bytesKey(sha, version)));
}

/** Keeps a preview that came from the server, for the next time without a network. */
export async function keepPreview(db: GardenDatabase, sha: Sha256, width: Width, type: string, bytes: ArrayBuffer): Promise<void> {
  await durably(db, () => db.transaction("rw", db.bytes, db.kept, () => putBytes(db, [{ key: bytesKey(sha, width), type, bytes }])));
}

/** Keeps an original that came from the server. Its being shown counts from now, or it would be the first to go again. */
export async function keepOriginal(db: GardenDatabase, sha: Sha256, type: string, bytes: ArrayBuffer, nowMs: number): Promise<void> {
  const key = bytesKey(sha, "original");
  await durably(db, () => db.transaction("rw", db.bytes, db.kept, async () => {
    await putBytes(db, [{ key, type, bytes }]);
    await db.kept.update(key, { shown: nowMs });
  }));
}

/** Adds the previews made of a picture that is kept already. */
export async function addPreviews(db: GardenDatabase, sha: Sha256, previews: ReadonlyMap<Width, ArrayBuffer>): Promise<void> {
  const bytes = [...previews].map(([width, bytes]) => ({ key: bytesKey(sha, width), type: "image/jpeg", bytes }));
  await durably(db, () => db.transaction("rw", db.photos, db.bytes, db.kept, async () => {
    const photo = await db.photos.get(sha);
    if (!photo) return;
    await putBytes(db, bytes);
    await db.photos.put({ ...photo, previews: widths.filter((width) => previews.has(width) || photo.previews.includes(width)) });
  }));
}

/** Pictures of which the server lacks something, oldest first; failed ones are among them. */
export async function unsentPhotos(db: GardenDatabase): Promise<HeldPhoto[]> {
  const photos = await durably(db, () => db.photos.where("done").equals(0).toArray());
  return photos.sort((a, b) => (a.made < b.made ? -1 : a.made > b.made ? 1 : 0));
}

/** Pictures whose previews were not made because the page was closed in between. */
export function withoutPreviews(db: GardenDatabase): Promise<HeldPhoto[]> {
  return durably(db, () => db.photos.where("done").equals(0).filter((photo) => photo.previews.length === 0 && !photo.unreadable && !isSound(photo)).toArray());
}

/** Notes progress. When all has arrived the original's bytes are let go: the previews stay. */
export async function progress(db: GardenDatabase, sha: Sha256, change: Partial<HeldPhoto>): Promise<void> {
  await durably(db, () => db.transaction("rw", db.photos, db.bytes, db.kept, db.unsettled, async () => {
    const photo = await db.photos.get(sha);
    if (!photo) return;
    await db.photos.put({ ...photo, ...change });
    if (change.done) await letOriginalGo(db, sha);
  }));
}

/** Gives a picture up, so that it is sent no more, or takes it up again. Its bytes stay while there is room. */
export async function giveUp(db: GardenDatabase, sha: Sha256, up: boolean): Promise<void> {
  await durably(db, () => db.photos.where("sha").equals(sha).modify((photo, row) => {
    const { givenUp: _, ...taken } = photo;
    row.value = up ? { ...photo, done: 1, givenUp: true } : { ...taken, done: 0 };
  }));
}

/** Lengths of bytes, by their keys. */
export async function sizesOf(db: GardenDatabase, keys: readonly string[]): Promise<Map<string, number>> {
  const rows = await durably(db, () => db.kept.bulkGet([...keys]));
  return new Map(rows.flatMap((row) => (row && row.size !== null ? [[row.key, row.size] as const] : [])));
}

/** Lets pictures that failed be tried again, because a person asked. */
export async function retry(db: GardenDatabase): Promise<void> {
  await durably(db, () => db.photos.where("done").equals(0).filter((photo) => photo.failed !== undefined).modify((photo, row) => {
    const { failed: _, ...again } = photo;
    row.value = again;
  }));
}
