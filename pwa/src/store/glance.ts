/**
 * What the first screen needs before IndexedDB is open, which takes a slow phone
 * the better part of a second: in which garden this phone is, and that garden's own
 * record. It is a copy that is read at once; the store is read all the same, and is
 * right where the two differ.
 */
import type { HeldMembership } from "./database";
import type { Shown } from "./overlay";

const KEY = "haulm.glance";

export type Glance = Readonly<{ membership: HeldMembership; garden: Shown | null }>;

/** Null where nothing was kept, or the browser keeps nothing of this sort. */
export function glance(): Glance | null {
  try {
    return JSON.parse(globalThis.localStorage.getItem(KEY) ?? "null") as Glance | null;
  } catch {
    return null;
  }
}

export function keepGlance(kept: Glance): void {
  try {
    globalThis.localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // Without it the first screen waits for the store.
  }
}

export function dropGlance(): void {
  try {
    globalThis.localStorage.removeItem(KEY);
  } catch {
    // Then there is none.
  }
}
