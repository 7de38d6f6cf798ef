/** What is shown: the server's records with this phone's changes on top. */
import type { RecordKind, Ref } from "../words/records";
import { kindOf } from "../words/records";
import type { GardenDatabase } from "./database";
import { durably } from "./durably";
import { cursorParts, type HeldChange, type HeldRecord } from "./held";
import { readMeta } from "./meta";
import { overlay, type Shown } from "./overlay";

/** What is shown of some records, in their order; null for what is not there. */
export function shownOfRefs(db: GardenDatabase, refs: readonly Ref[]): Promise<(Shown | null)[]> {
  return durably(db, () => db.transaction("r", db.records, db.changes, db.meta, () => shownInside(db, refs)));
}

/** The same as part of a transaction. */
export async function shownInside(db: GardenDatabase, refs: readonly Ref[]): Promise<(Shown | null)[]> {
  const held = await db.records.bulkGet([...refs]);
  const changes = await db.changes.where("ref").anyOf(refs).sortBy("order");
  return overlaid(refs, held, changes, await passed(db));
}

/** What is shown of all records of some kinds. */
export function shownOfKinds(db: GardenDatabase, kinds: readonly RecordKind[]): Promise<Shown[]> {
  return durably(db, () => db.transaction("r", db.records, db.changes, db.meta, async () => {
    const held = await db.records.where("kind").anyOf(kinds).toArray();
    const changes = await db.changes.orderBy("order").filter((change) => kinds.includes(kindOf(change.ref))).toArray();
    const there = new Map<Ref, HeldRecord | undefined>(changes.map(({ ref }) => [ref, undefined]));
    for (const record of held) there.set(record.ref, record);
    const all = overlaid([...there.keys()], [...there.values()], changes, await passed(db));
    return all.filter((shown) => shown !== null);
  }));
}

async function passed(db: GardenDatabase): Promise<number> {
  return cursorParts((await readMeta(db, "cursor")) ?? "").seq;
}

function overlaid(
  refs: readonly Ref[], held: readonly (HeldRecord | undefined)[], changes: readonly HeldChange[], seq: number,
): (Shown | null)[] {
  const onRecord = new Map<Ref, HeldChange[]>();
  for (const change of changes) onRecord.set(change.ref, [...(onRecord.get(change.ref) ?? []), change]);
  return refs.map((ref, i) => overlay(ref, held[i], onRecord.get(ref) ?? [], seq));
}
