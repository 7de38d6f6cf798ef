/** What a person writes: one transaction each, on disk when it resolves; and taking it back. */
import type { Table } from "dexie";
import { newClock, newSuffix, tick } from "../words/clock";
import type { ISOInstant, Sha256, Uuid } from "../words/ids";
import { instantHere } from "../words/days";
import { newId } from "../words/uuid";
import type { Ref } from "../words/records";
import type { GardenDatabase } from "./database";
import { durably } from "./durably";
import { cursorParts, type Fields, type HeldBytes, type HeldChange, type HeldPhoto, type HeldRecord, type Unsettled } from "./held";
import { putMeta, readMeta } from "./meta";
import { overlay, type Shown } from "./overlay";
import { dropPictures, keepPictures, settleInside } from "./pictures";
import { shownInside } from "./reading";

/** Fields to set on a record, null clearing one; or that it is gone, or back. */
export type Draft = Readonly<{ ref: Ref; set: Fields; gone?: boolean }>;

/** A picture to keep along with the change that speaks of it. */
export type Picture = Readonly<{ photo: HeldPhoto; bytes: readonly HeldBytes[]; unsettled?: Unsettled }>;

/** What a writing finds out about a picture, and what is still open then. */
export type Settled = Readonly<{ row: Unsettled; left: Unsettled | null }>;

/** What was written and what was there before, which is all that undoing needs. */
export type Written = Readonly<{
  at: ISOInstant;
  changes: readonly HeldChange[];
  before: readonly (Shown | null)[];
  /** What each draft's record shows with all of it written. */
  after: readonly (Shown | null)[];
  /** Pictures that came with it; undoing lets those go that no other entry speaks of. */
  photos: readonly Sha256[];
  unsettled: readonly Unsettled[];
}>;

/** Writes changes, and pictures with them, in one transaction; a draft that says nothing is not written, since no server takes it. */
export async function write(
  db: GardenDatabase, nowMs: number, drafts: readonly Draft[], pictures: readonly Picture[] = [],
): Promise<Written> {
  const saying = drafts.filter(saysSomething);
  const ids = saying.map(() => newId(nowMs));
  const tables = pictures.length > 0 ? tablesOf(db) : [db.records, db.changes, db.meta];
  return durably(db, () => db.transaction("rw", tables, async () => {
    await keepPictures(db, pictures);
    const written = await writeAll(db, nowMs, saying, ids);
    return { ...written, at: instantHere(nowMs), ...namesOf(pictures) };
  }));
}

function saysSomething({ set, gone }: Draft): boolean {
  return Object.keys(set).length > 0 || gone !== undefined;
}

/** Writes a refused change again with other values, under a new id, in the refusal's place. */
export async function writeAgain(db: GardenDatabase, nowMs: number, refused: Uuid, fields: Fields): Promise<Ref | null> {
  const id = newId(nowMs);
  return durably(db, () => db.transaction("rw", db.records, db.changes, db.meta, db.refused, async () => {
    const old = await db.refused.get(refused);
    if (!old) return null;
    const draft = { ref: old.ref, set: { ...old.set, ...fields }, ...(old.gone !== undefined && { gone: old.gone }) };
    await writeAll(db, nowMs, [draft], [id]);
    await db.refused.delete(refused);
    return old.ref;
  }));
}

function namesOf(pictures: readonly Picture[]): Pick<Written, "photos" | "unsettled"> {
  return { photos: pictures.map(({ photo }) => photo.sha), unsettled: pictures.flatMap(({ unsettled }) => unsettled ?? []) };
}

/** Writes what was found out about a picture; nothing when another tab or an undo was quicker. */
export async function writeSettled(db: GardenDatabase, nowMs: number, drafts: readonly Draft[], settled: Settled): Promise<Written> {
  const ids = drafts.map(() => newId(nowMs));
  return durably(db, () => db.transaction("rw", tablesOf(db), async () => {
    const open = await settleInside(db, settled);
    const written = await writeAll(db, nowMs, open ? drafts : [], ids);
    return { ...written, at: instantHere(nowMs), photos: [], unsettled: [] };
  }));
}

function tablesOf(db: GardenDatabase): Table[] {
  return [db.records, db.changes, db.meta, db.photos, db.bytes, db.kept, db.unsettled];
}

/**
 * Takes back what was written, and gives what its records show then. What no server
 * can have is deleted as if it had never been; for the rest changes are written that
 * restore what was there, leaving alone what someone wrote since.
 */
export async function takeBack(db: GardenDatabase, nowMs: number, written: Written): Promise<Written["after"]> {
  return durably(db, () => db.transaction("rw", tablesOf(db), async () => {
    await db.unsettled.bulkDelete(written.unsettled.map(({ sha, ref }) => [sha, ref]));
    const orders = await deletable(db, written.changes);
    if (orders) {
      await db.changes.bulkDelete(orders);
      await dropPictures(db, written.photos);
      return shownInside(db, written.changes.map(({ ref }) => ref));
    }
    const inverses = await Promise.all(written.changes.map((change, i) => inverse(db, change, written.before[i] ?? null)));
    const drafts = inverses.filter(saysSomething); // where others wrote on all of it since, nothing is left to restore
    return (await writeAll(db, nowMs, drafts, drafts.map(() => newId(nowMs)))).after;
  }));
}

type Made = Pick<Written, "changes" | "before" | "after">;

/** Inside a transaction: stamps drafts in order and puts them behind all others. What it needs is read at once: a phone takes longest over coming and going. */
async function writeAll(db: GardenDatabase, nowMs: number, drafts: readonly Draft[], ids: readonly Uuid[]): Promise<Made> {
  const refs = drafts.map((draft) => draft.ref);
  const [suffix, clock, cursor, held, pending, there] = await Promise.all([
    suffixFor(db), readMeta(db, "clock"), readMeta(db, "cursor"), db.records.bulkGet(refs), changesOn(db, refs),
    db.changes.where("id").anyOf(ids).toArray(),
  ]);
  const seen = cursorParts(cursor ?? "");
  const onRecord = new Map(refs.map((ref, i) => [ref, new OnRecord(ref, held[i], pending.filter((change) => change.ref === ref && !ids.includes(change.id)), seen)]));
  let last = clock ?? newClock;
  const before: (Shown | null)[] = [];
  const made = drafts.map((draft, i): HeldChange => {
    const [at, next] = tick(last, nowMs, suffix);
    last = next;
    const record = onRecord.get(draft.ref)!;
    before.push(record.shown);
    const change = there.find(({ id }) => id === ids[i]) ?? { ...draft, id: ids[i]!, base: record.base, at, made: instantHere(nowMs), tried: false };
    record.put(change);
    return change;
  });
  const [changes] = await Promise.all([putOnce(db, made), putMeta(db, "clock", last)]);
  return { changes, before, after: refs.map((ref) => onRecord.get(ref)!.shown) };
}

function changesOn(db: GardenDatabase, refs: readonly Ref[]): Promise<HeldChange[]> {
  return db.changes.where("ref").anyOf(refs).sortBy("order");
}

/** A record while changes are put on it. */
class OnRecord {
  readonly #ref: Ref;
  readonly #held: HeldRecord | undefined;
  readonly #changes: HeldChange[];
  readonly #cursor: ReturnType<typeof cursorParts>;

  constructor(ref: Ref, held: HeldRecord | undefined, changes: HeldChange[], cursor: ReturnType<typeof cursorParts>) {
    this.#ref = ref;
    this.#held = held;
    this.#changes = changes;
    this.#cursor = cursor;
  }

  get shown(): Shown | null {
    return overlay(this.#ref, this.#held, this.#changes, this.#cursor.seq);
  }

  /** The record's sequence as seen here, or 0 when a restored server may count otherwise. */
  get base(): number {
    return this.#held?.epoch === this.#cursor.epoch ? this.#held.seq : 0;
  }

  put(change: HeldChange): void {
    this.#changes.push(change);
  }
}

/** Changes with their places in the order. A try whose outcome was never heard may have reached the disk: what has a place is not written twice. */
async function putOnce(db: GardenDatabase, changes: readonly HeldChange[]): Promise<HeldChange[]> {
  const orders = await Promise.all(changes.map((change) => change.order ?? db.changes.add(change)));
  return changes.map((change, i) => ({ ...change, order: orders[i]! }));
}

/** This phone's suffix in stamps, made when it has none. Takes part in a transaction that runs. */
export async function suffixFor(db: GardenDatabase): Promise<string> {
  const known = await readMeta(db, "suffix");
  if (known) return known;
  const suffix = newSuffix();
  await putMeta(db, "suffix", suffix);
  return suffix;
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

function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
