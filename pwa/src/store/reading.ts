/** What is shown: the server's records with this phone's changes on top. */
import type { RecordKind, Ref } from "../words/records";
import { kindOf } from "../words/records";
import type { GardenDatabase } from "./database";
import { durably } from "./durably";
import { cursorParts, type HeldChange, type HeldRecord } from "./held";
import { readMeta } from "./meta";
import { overlay, type Shown } from "./overlay";
import { idsFrom } from "../words/uuid";

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

/** What is shown of the records of a kind that were made on phones from a moment on and up to another. */
export function shownMadeFrom(db: GardenDatabase, kind: RecordKind, fromMs: number, toMs: number): Promise<Shown[]> {
  const [from, to] = [`${kind}/${idsFrom(fromMs)}`, `${kind}/${idsFrom(toMs + 1)}`];
  return durably(db, () => db.transaction("r", db.records, db.changes, db.meta, async () => {
    const held = await db.records.where("ref").between(from, to).primaryKeys();
    const changes = await db.changes.where("ref").between(from, to).toArray();
    const shown = await shownInside(db, [...new Set([...held, ...changes.map(({ ref }) => ref)])] as Ref[]);
    return shown.filter((one) => one !== null);
  }));
}

/**
 * What is shown of all records of some kinds, piece by piece, so that a large garden
 * never holds the page up for long; what is written meanwhile may be in it or not, and the news tells of it.
 */
export async function* shownInPieces(db: GardenDatabase, kinds: readonly RecordKind[], size: number): AsyncGenerator<Shown[]> {
  for (const kind of kinds) {
    let piece: HeldRecord[] = [];
    do {
      const after: string = piece.at(-1)?.ref ?? `${kind}/`;
      const read = await durably(db, () => pieceAfter(db, kind, after, size));
      piece = read.held;
      if (read.shown.length > 0) yield read.shown;
    } while (piece.length === size);
  }
  yield await writtenHere(db, kinds);
}

/** The records of a kind that follow a reference, in the order of their references. */
function pieceAfter(db: GardenDatabase, kind: RecordKind, after: string, size: number): Promise<{ held: HeldRecord[]; shown: Shown[] }> {
  return db.transaction("r", db.records, db.changes, db.meta, async () => {
    const held = await db.records.where("ref").between(after, `${kind}0`, false, false).limit(size).toArray(); // "0" follows "/"
    const refs = held.map(({ ref }) => ref);
    const changes = await db.changes.where("ref").between(refs[0] ?? after, refs.at(-1) ?? after, true, true).sortBy("order");
    return { held, shown: overlaid(refs, held, changes, await passed(db)).filter((shown) => shown !== null) };
  });
}

/** What has changes of this phone on it, or is of this phone alone. */
function writtenHere(db: GardenDatabase, kinds: readonly RecordKind[]): Promise<Shown[]> {
  return durably(db, () => db.transaction("r", db.records, db.changes, db.meta, async () => {
    const changes = await db.changes.filter(({ ref }) => kinds.includes(kindOf(ref))).toArray();
    const shown = await shownInside(db, [...new Set(changes.map(({ ref }) => ref))]);
    return shown.filter((one) => one !== null);
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
