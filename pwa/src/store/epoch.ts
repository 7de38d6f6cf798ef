/**
 * When the server begins another life of the garden, because it was restored or
 * lost what it had acknowledged: the feed starts again, what is unsent stays, and
 * what only this phone may still hold is offered.
 */
import { newId } from "../words/uuid";
import type { Stamp } from "../words/ids";
import { instantHere } from "../words/days";
import type { GardenDatabase } from "./database";
import { durably } from "./durably";
import { forgetInside } from "./feed";
import { cursorParts, type HeldChange, type HeldRecord } from "./held";
import { putMeta, readMeta } from "./meta";

/**
 * Begins the feed again. Both lives share the sequences up to `fork`. Nothing is
 * taken off the screen: own changes wait to be sent again, and each record that
 * changed after the fork becomes changes with the stamps it had, so that phones
 * that offer the same make no difference, and later writing wins as ever.
 */
export async function beginAgain(db: GardenDatabase, fork: number, nowMs: number): Promise<void> {
  await durably(db, () => db.transaction("rw", db.records, db.changes, db.meta, async () => {
    const own = await db.changes.orderBy("order").toArray();
    const later = await db.records.filter(({ seq }) => seq > fork).toArray();
    const offers = later.flatMap((record) => offersOf(record, fork, nowMs));
    const again = own.map(({ order: _, seq: __, ...change }) => ({ ...change, base: Math.min(change.base, fork) }));
    await db.changes.clear();
    await db.changes.bulkAdd([...offers, ...again]); // own writing came after what it was written on
    await putMeta(db, "cursor", "");
  }));
}

/** One change for each stamp in a record; who did it is the server's to say. */
function offersOf(record: HeldRecord, fork: number, nowMs: number): HeldChange[] {
  const byStamp = new Map<Stamp, Record<string, unknown>>();
  for (const [field, at] of Object.entries(record.at)) {
    if (field === "by") continue;
    byStamp.set(at, { ...byStamp.get(at), [field]: record.fields[field] ?? null });
  }
  const change = { ref: record.ref, base: Math.min(record.seq, fork), made: instantHere(nowMs), tried: false, offered: true };
  const sets = [...byStamp].map(([at, set]): HeldChange => ({ ...change, id: newId(nowMs), at, set }));
  const { gone, goneAt } = record;
  return goneAt ? [...sets, { ...change, id: newId(nowMs), at: goneAt, set: {}, gone: gone ?? false }] : sets;
}

/** Forgets what neither the new feed gave nor the server took, once nothing waits any more. */
export async function dropOrphans(db: GardenDatabase): Promise<HeldRecord["ref"][]> {
  return durably(db, () => db.transaction("rw", db.records, db.meta, async () => {
    const { epoch } = cursorParts((await readMeta(db, "cursor")) ?? "");
    const orphans = await db.records.where("epoch").notEqual(epoch).toArray();
    if (orphans.length > 0) await forgetInside(db, orphans);
    return orphans.map(({ ref }) => ref);
  }));
}
