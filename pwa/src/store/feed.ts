/** The line's side of the store: what goes out in order, and what comes back. */
import { learn, newClock, observe, type ClockState } from "../words/clock";
import type { Cursor, Stamp, Uuid } from "../words/ids";
import { instantHere } from "../words/days";
import type { Ref } from "../words/records";
import type { GardenDatabase } from "./database";
import { emptyDigest, exchange, markOf } from "./digest";
import { durably } from "./durably";
import { cursorParts, type HeldChange, type HeldMark, type HeldRecord } from "./held";
import { putMeta, readMeta } from "./meta";
import { kindOf } from "../words/records";

/** A record as the feed carries it. */
export type FeedRecord = Omit<HeldRecord, "ref" | "kind" | "epoch" | "mark"> & Readonly<{ record: Ref }>;

/** The server's answer to one exchange. `heardMs` is this phone's clock halfway between asking and hearing. */
export type Answer = Readonly<{
  applied: readonly Readonly<{ id: Uuid; seq: number; at: Stamp }>[];
  refused: readonly Readonly<{ id: Uuid; code: string; why: string }>[];
  records: readonly FeedRecord[];
  cursor: Cursor;
  more: boolean;
  digest?: string;
  now: string;
  heardMs: number;
}>;

/** The oldest changes that wait, within a count and a size in characters; marks that they were given to the line. */
export function take(db: GardenDatabase, limit: number, size: number): Promise<HeldChange[]> {
  return durably(db, () => db.transaction("rw", db.changes, async () => {
    const waiting = await db.changes.orderBy("order").filter((change) => change.seq === undefined).limit(limit).toArray();
    const batch = within(waiting, size);
    await db.changes.bulkPut(batch.filter((change) => !change.tried).map((change) => ({ ...change, tried: true })));
    return batch;
  }));
}

function within(changes: readonly HeldChange[], size: number): HeldChange[] {
  let left = size;
  return changes.filter((change, i) => (left -= JSON.stringify(change).length) >= 0 || i === 0);
}

/** Takes an answer in, all of it or nothing. Gives the references whose shown record may differ now. */
export async function settle(db: GardenDatabase, answer: Answer): Promise<Ref[]> {
  const incoming = await Promise.all(answer.records.map((record) => toHeld(record, answer.cursor)));
  const tables = [db.records, db.changes, db.refused, db.meta];
  return durably(db, () => db.transaction("rw", tables, async () => {
    const refused = await refuse(db, answer);
    await acknowledge(db, answer);
    await putRecords(db, incoming);
    const passed = await advance(db, answer);
    return [...new Set([...refused, ...incoming.map((record) => record.ref), ...passed])];
  }));
}

async function toHeld(record: FeedRecord, cursor: Cursor): Promise<HeldRecord> {
  const { record: ref, ...rest } = record;
  const mark = record.gone ? "" : await markOf(ref, record.at);
  return { ...rest, ref, kind: kindOf(ref), epoch: cursorParts(cursor).epoch, mark };
}

async function refuse(db: GardenDatabase, answer: Answer): Promise<Ref[]> {
  const refs: Ref[] = [];
  for (const { id, code, why } of answer.refused) {
    const change = await db.changes.where("id").equals(id).first();
    if (!change) continue;
    if (!change.offered) await db.refused.put({ ...change, code, why });
    await db.changes.delete(change.order!);
    refs.push(change.ref);
  }
  return refs;
}

async function acknowledge(db: GardenDatabase, answer: Answer): Promise<void> {
  for (const { id, seq, at } of answer.applied) {
    await db.changes.where("id").equals(id).modify({ seq, at });
  }
}

/** Puts records, keeping the digest in step; inside a transaction. */
export async function putRecords(db: GardenDatabase, records: readonly HeldRecord[]): Promise<void> {
  let digest = (await readMeta(db, "digest")) ?? emptyDigest;
  const before = await db.records.bulkGet(records.map((record) => record.ref));
  for (const [i, record] of records.entries()) digest = exchange(digest, before[i]?.mark ?? "", record.mark);
  await db.records.bulkPut([...records]);
  await putMeta(db, "digest", digest);
}

/** Moves the cursor and the clock, and drops own changes that the feed has passed. */
async function advance(db: GardenDatabase, answer: Answer): Promise<Ref[]> {
  const { seq } = cursorParts(answer.cursor);
  const passed = await db.changes.filter((change) => change.seq !== undefined && change.seq <= seq).toArray();
  await db.changes.bulkDelete(passed.map((change) => change.order!));
  await putMeta(db, "cursor", answer.cursor);
  await putMeta(db, "clock", clockAfter((await readMeta(db, "clock")) ?? newClock, answer));
  return passed.map((change) => change.ref);
}

function clockAfter(clock: ClockState, answer: Answer): ClockState {
  const stamps = answer.records.flatMap((record) => [record.goneAt ?? "", ...Object.values(record.at)]);
  const greatest = stamps.reduce((a, b) => (a > b ? a : b), "" as Stamp);
  return learn(observe(clock, greatest), answer.now, answer.heardMs);
}

/** Notes that phone and server agree at this moment. */
export async function agree(db: GardenDatabase, nowMs: number): Promise<void> {
  await durably(db, () => putMeta(db, "agreed", instantHere(nowMs)));
}

/** Adds the digest up anew from what is really there, so that a record that the phone lost is missed. */
export async function recount(db: GardenDatabase): Promise<void> {
  await durably(db, () => db.transaction("rw", db.records, db.meta, async () => {
    const records = await db.records.toArray();
    await putMeta(db, "digest", records.reduce((sum, { mark }) => exchange(sum, "", mark), emptyDigest));
  }));
}

/** Forgets records that the server does not have. */
export async function forget(db: GardenDatabase, records: readonly HeldMark[]): Promise<void> {
  await durably(db, () => db.transaction("rw", db.records, db.meta, () => forgetInside(db, records)));
}

/** The same as part of a transaction. */
export async function forgetInside(db: GardenDatabase, records: readonly HeldMark[]): Promise<void> {
  let digest = (await readMeta(db, "digest")) ?? emptyDigest;
  for (const record of records) digest = exchange(digest, record.mark, "");
  await db.records.bulkDelete(records.map((record) => record.ref));
  await putMeta(db, "digest", digest);
}

/** Puts records that a comparison with the server showed to differ. */
export async function mendRecords(db: GardenDatabase, records: readonly FeedRecord[]): Promise<Ref[]> {
  const cursor = (await readMeta(db, "cursor")) ?? "";
  const incoming = await Promise.all(records.map((record) => toHeld(record, cursor)));
  await durably(db, () => db.transaction("rw", db.records, db.meta, () => putRecords(db, incoming)));
  return incoming.map((record) => record.ref);
}

/** Puts a change aside that never got judged. */
export async function refuseOne(db: GardenDatabase, change: HeldChange, code: string, why: string): Promise<void> {
  await durably(db, () => db.transaction("rw", db.changes, db.refused, async () => {
    if (!change.offered) await db.refused.put({ ...change, code, why });
    await db.changes.delete(change.order!);
  }));
}

/** Gives a refused change up. */
export async function discard(db: GardenDatabase, change: Uuid): Promise<void> {
  await durably(db, () => db.refused.delete(change));
}
