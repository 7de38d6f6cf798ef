/** What a person writes: one transaction each, on disk when it resolves; and taking it back. */
import { newClock, newSuffix, tick } from "../words/clock";
import type { ISOInstant, Sha256, Uuid } from "../words/ids";
import { instantHere } from "../words/days";
import { newId } from "../words/uuid";
import type { Ref } from "../words/records";
import type { GardenDatabase } from "./database";
import { durably } from "./durably";
import { bytesKey, cursorParts, widths, type Fields, type HeldBytes, type HeldChange, type HeldPhoto } from "./held";
import { putMeta, readMeta } from "./meta";
import type { Shown } from "./overlay";
import { shownInside } from "./reading";

/** Fields to set on a record, null clearing one; or that it is gone, or back. */
export type Draft = Readonly<{ ref: Ref; set: Fields; gone?: boolean }>;

/** A picture to keep along with the change that speaks of it. */
export type Picture = Readonly<{ photo: HeldPhoto; bytes: readonly HeldBytes[] }>;

/** What was written and what was there before, which is all that undoing needs. */
export type Written = Readonly<{
  at: ISOInstant;
  changes: readonly HeldChange[];
  before: readonly (Shown | null)[];
  photos: readonly Sha256[];
}>;

/** Writes changes, and pictures with them, in one transaction. */
export async function write(
  db: GardenDatabase, nowMs: number, drafts: readonly Draft[], pictures: readonly Picture[] = [],
): Promise<Written> {
  const ids = drafts.map(() => newId(nowMs));
  const tables = [db.records, db.changes, db.meta, db.photos, db.bytes];
  return durably(db, () => db.transaction("rw", tables, async () => {
    await db.photos.bulkPut(pictures.map((picture) => picture.photo));
    await db.bytes.bulkPut(pictures.flatMap((picture) => picture.bytes));
    const written = await writeAll(db, nowMs, drafts, ids);
    return { ...written, at: instantHere(nowMs), photos: pictures.map((picture) => picture.photo.sha) };
  }));
}

/**
 * Takes back what was written. What no server can have is deleted as if it had
 * never been; for the rest changes are written that restore what was there,
 * leaving alone what someone wrote since.
 */
export async function takeBack(db: GardenDatabase, nowMs: number, written: Written): Promise<void> {
  const tables = [db.records, db.changes, db.meta, db.photos, db.bytes];
  await durably(db, () => db.transaction("rw", tables, async () => {
    const orders = await deletable(db, written.changes);
    if (orders) {
      await db.changes.bulkDelete(orders);
      await dropPhotos(db, written.photos);
      return;
    }
    const drafts = await Promise.all(written.changes.map((change, i) => inverse(db, change, written.before[i] ?? null)));
    await writeAll(db, nowMs, drafts, drafts.map(() => newId(nowMs)));
  }));
}

type Made = Pick<Written, "changes" | "before">;

/** Inside a transaction: stamps drafts in order and puts them behind all others. */
async function writeAll(db: GardenDatabase, nowMs: number, drafts: readonly Draft[], ids: readonly Uuid[]): Promise<Made> {
  const suffix = await suffixFor(db);
  let clock = (await readMeta(db, "clock")) ?? newClock;
  const changes: HeldChange[] = [];
  const before: (Shown | null)[] = [];
  for (const [i, draft] of drafts.entries()) {
    const [at, next] = tick(clock, nowMs, suffix);
    clock = next;
    before.push(await shown(db, draft.ref));
    const change: HeldChange = { ...draft, id: ids[i]!, base: await baseOf(db, draft.ref), at, made: instantHere(nowMs), tried: false };
    changes.push({ ...change, order: await putOnce(db, change) });
  }
  await putMeta(db, "clock", clock);
  return { changes, before };
}

/** A try whose outcome was never heard may have reached the disk: the same id is not written twice. */
async function putOnce(db: GardenDatabase, change: HeldChange): Promise<number> {
  const there = await db.changes.where("id").equals(change.id).first();
  return there?.order ?? db.changes.add(change);
}

async function suffixFor(db: GardenDatabase): Promise<string> {
  const known = await readMeta(db, "suffix");
  if (known) return known;
  const suffix = newSuffix();
  await putMeta(db, "suffix", suffix);
  return suffix;
}

/** The record's sequence as seen here, or 0 when a restored server may count otherwise. */
async function baseOf(db: GardenDatabase, ref: Ref): Promise<number> {
  const held = await db.records.get(ref);
  if (!held) return 0;
  const { epoch } = cursorParts((await readMeta(db, "cursor")) ?? "");
  return held.epoch === epoch ? held.seq : 0;
}

async function shown(db: GardenDatabase, ref: Ref): Promise<Shown | null> {
  return (await shownInside(db, [ref]))[0] ?? null;
}

/** The orders of changes when all can be deleted: never given to the line, and nothing was written on top of them. */
async function deletable(db: GardenDatabase, changes: readonly HeldChange[]): Promise<number[] | null> {
  const ours = new Set(changes.map((change) => change.id));
  const orders: number[] = [];
  for (const { ref } of changes) {
    const onRecord = await db.changes.where("ref").equals(ref).sortBy("order");
    const from = onRecord.findIndex((change) => ours.has(change.id));
    const tail = from < 0 ? [] : onRecord.slice(from);
    if (tail.length === 0 || tail.some((change) => change.tried || !ours.has(change.id))) return null;
    orders.push(...tail.map((change) => change.order!));
  }
  return [...new Set(orders)];
}

async function inverse(db: GardenDatabase, change: HeldChange, before: Shown | null): Promise<Draft> {
  if (!before) return { ref: change.ref, set: {}, gone: true };
  const now = await shown(db, change.ref);
  const set: Record<string, unknown> = {};
  for (const [field, value] of Object.entries(change.set)) {
    if (same(now?.fields[field] ?? null, value)) set[field] = before.fields[field] ?? null;
  }
  return change.gone === undefined ? { ref: change.ref, set } : { ref: change.ref, set, gone: before.gone };
}

async function dropPhotos(db: GardenDatabase, shas: readonly Sha256[]): Promise<void> {
  await db.photos.bulkDelete([...shas]);
  await db.bytes.bulkDelete(shas.flatMap((sha) => [...widths, "original" as const].map((version) => bytesKey(sha, version))));
}

function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
