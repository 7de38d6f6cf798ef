// What a label says to a reader: the address in its square code, or the six
// letters under it for when no camera can read it.

import { placeOf } from "../routes/paths";
import type { Planting } from "../words/records";

/** Crockford's base 32: no I, L, O or U, so that none is taken for another. */
const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const LETTERS = 6;
const BITS = 5; // in one letter

/**
 * Six letters for a planting's id, written "K7F 3Q2". Thirty bits of a hash: among
 * 5,000 plantings one garden in ninety has two with the same, and then both are shown.
 */
export function lettersOf(planting: string): string {
  const hash = fnv1a(planting);
  const all = Array.from({ length: LETTERS }, (_, i) => ALPHABET[(hash >>> (BITS * i)) & 31]!).join("");
  return `${all.slice(0, LETTERS / 2)} ${all.slice(LETTERS / 2)}`;
}

/** FNV-1a, 32 bits (Fowler, Noll, Vo), stirred once more so that ids that differ in their last letter alone part everywhere (the finalizer of MurmurHash3). */
function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}

/** Letters as typed: with or without a gap, small or large, I and L for 1 and O for 0; null where they are none of a label. */
export function lettersTyped(text: string): string | null {
  const plain = text.toUpperCase().replaceAll(/[\s·.-]/gu, "").replaceAll(/[IL]/gu, "1").replaceAll("O", "0");
  const known = plain.length === LETTERS && [...plain].every((letter) => ALPHABET.includes(letter));
  return known ? `${plain.slice(0, LETTERS / 2)} ${plain.slice(LETTERS / 2)}` : null;
}

/** The plantings that typed letters may be of: one, hardly ever two. */
export function withLetters(letters: string, plantings: readonly Planting[]): readonly Planting[] {
  return plantings.filter(({ id }) => lettersOf(id) === letters);
}

/** `foreign`: a label of Haulm's kind, but of a planting that this garden does not have. */
export type Read = Readonly<{ what: "planting"; id: string } | { what: "foreign" | "not-a-label" }>;

/** What a square code says. A label printed when the server had another address still opens its planting. */
export function readCode(text: string, knows: (planting: string) => boolean): Read {
  const address = URL.canParse(text) ? new URL(text) : null;
  const place = address && /^https?:$/u.test(address.protocol) ? placeOf(address) : null;
  if (place?.screen !== "planting") return { what: "not-a-label" };
  return knows(place.id) ? { what: "planting", id: place.id } : { what: "foreign" };
}
