/**
 * How phone and server find out in one comparison whether they hold the same:
 * every live record has a mark, the first 16 bytes of SHA-256 over its reference
 * and its fields' names with their stamps, and the digest is the sum of all marks
 * modulo 2^128.
 */
import type { Ref } from "../words/records";
import type { Stamps } from "./held";

const markBytes = 16;
const modulus = 1n << 128n;
const hexDigits = markBytes * 2;

export const emptyDigest = "0".repeat(hexDigits);

/** A live record's mark in hexadecimal. A tombstone has none. */
export async function markOf(ref: Ref, at: Stamps): Promise<string> {
  const names = Object.keys(at).sort(bytewise);
  const text = [ref, ...names.flatMap((name) => [name, at[name]])].join("\0");
  const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return hex(new Uint8Array(hash, 0, markBytes));
}

/** The digest with one record's mark exchanged for another; "" stands for no record. */
export function exchange(digest: string, before: string, after: string): string {
  const sum = (big(digest) - big(before) + big(after) + modulus) % modulus;
  return sum.toString(16).padStart(hexDigits, "0");
}

const bucketHashHex = 2; // 256 buckets: the first byte of the hash

/** Which of the 256 sums a record belongs to, by the hash of its reference. */
export async function bucketOf(ref: Ref): Promise<number> {
  const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(ref));
  return Number.parseInt(hex(new Uint8Array(hash)).slice(0, bucketHashHex), 16);
}

/** Lower-case hexadecimal. */
export function hex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

function big(digits: string): bigint {
  return digits === "" ? 0n : BigInt(`0x${digits}`);
}

/** The order of UTF-8 bytes, which is that of code points and not of JavaScript's own comparison. */
function bytewise(a: string, b: string): number {
  const [left, right] = [Array.from(a), Array.from(b)];
  for (let i = 0; i < Math.min(left.length, right.length); i++) {
    const difference = left[i]!.codePointAt(0)! - right[i]!.codePointAt(0)!;
    if (difference !== 0) return difference;
  }
  return left.length - right.length;
}
