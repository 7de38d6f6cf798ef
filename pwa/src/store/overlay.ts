/**
 * What a person sees of a record: the server's copy with this phone's own changes
 * on top, in the order they were written. A sent change stays on top until the
 * feed has passed its sequence, so that an edit never flickers; what the server
 * judged otherwise shows then. Held to the vectors that Go's sync/change passes.
 */
import type { Stamp } from "../words/ids";
import type { Ref } from "../words/records";
import type { Fields, HeldChange, HeldRecord, LostText, Stamps } from "./held";

export type Shown = Readonly<{
  ref: Ref;
  fields: Fields;
  at: Stamps;
  also: Readonly<Record<string, readonly LostText[]>>;
  gone: boolean;
  /** Some of it waits on this phone. */
  unsent: boolean;
}>;

/** Null when neither the server nor this phone has the record. `passed` is the sequence that the feed was read to. */
export function overlay(
  ref: Ref, held: HeldRecord | undefined, changes: readonly HeldChange[], passed: number,
): Shown | null {
  const pending = changes.filter((change) => change.seq === undefined || change.seq > passed);
  if (!held && pending.length === 0) return null;
  const fields: Record<string, unknown> = { ...held?.fields };
  const at: Record<string, Stamp> = { ...held?.at };
  let gone = held?.gone ?? false;
  for (const change of pending) {
    Object.assign(fields, change.set);
    for (const field of Object.keys(change.set)) at[field] = change.at;
    gone = change.gone ?? gone;
  }
  const unsent = pending.some((change) => change.seq === undefined);
  return { ref, fields: withoutNulls(fields), at, also: held?.also ?? {}, gone, unsent };
}

/** A null clears a field. */
function withoutNulls(fields: Fields): Fields {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
}
