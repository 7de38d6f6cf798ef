/**
 * The hybrid logical clock that stamps what this phone writes. A stamp is
 * "2026-06-02T09:15:00.123Z-0000-k7f3q2": UTC milliseconds, a counter in four
 * hexadecimal digits, and the phone's suffix. Stamps sort as text in the order of
 * writing: a stamp is never below the last one made here nor below one seen from
 * elsewhere, whatever the phone's own clock says.
 *
 * After Kulkarni, Demirbas and others, "Logical Physical Clocks" (2014).
 */
import type { Stamp } from "./ids";

export type ClockState = Readonly<{
  /** The greatest stamp made or seen; "" before the first. */
  last: Stamp;
  /** What to add to the phone's clock to get the server's, milliseconds. */
  offsetMs: number;
}>;

export const newClock: ClockState = { last: "", offsetMs: 0 };

const millisecondsLength = "2026-06-02T09:15:00.123Z".length;
const counterDigits = 4;
const counterLimit = 16 ** counterDigits;

/** The next stamp for a phone whose own clock shows `wallMs`, and the clock after it. */
export function tick(clock: ClockState, wallMs: number, suffix: string): [Stamp, ClockState] {
  const now = Math.trunc(wallMs + clock.offsetMs);
  const last = parts(clock.last);
  let [ms, counter] = now > last.ms ? [now, 0] : [last.ms, last.counter + 1];
  if (counter === counterLimit) [ms, counter] = [ms + 1, 0];
  const stamp = `${new Date(ms).toISOString()}-${counter.toString(16).padStart(counterDigits, "0")}-${suffix}`;
  return [stamp, { ...clock, last: stamp }];
}

/** The clock after it has seen a stamp from elsewhere. */
export function observe(clock: ClockState, seen: Stamp): ClockState {
  return seen > clock.last ? { ...clock, last: seen } : clock;
}

/** The clock after a server said its time; `wallMs` is halfway between asking and hearing. */
export function learn(clock: ClockState, serverNow: string, wallMs: number): ClockState {
  const server = Date.parse(serverNow);
  return Number.isFinite(server) ? { ...clock, offsetMs: Math.round(server - wallMs) } : clock;
}

/** The suffix of the phone that made a stamp. */
export function suffixOf(stamp: Stamp): string {
  return stamp.slice(millisecondsLength + counterDigits + 2);
}

const suffixLength = 6;
const suffixAlphabet = "abcdefghijkmnpqrstuvwxyz23456789"; // 32 letters and digits that are not mistaken for one another

/** A suffix for a new phone, drawn at random. */
export function newSuffix(): string {
  const random = crypto.getRandomValues(new Uint8Array(suffixLength));
  return Array.from(random, (byte) => suffixAlphabet[byte % suffixAlphabet.length]).join("");
}

function parts(stamp: Stamp): { ms: number; counter: number } {
  if (stamp === "") return { ms: Number.NEGATIVE_INFINITY, counter: 0 };
  return {
    ms: Date.parse(stamp.slice(0, millisecondsLength)),
    counter: Number.parseInt(stamp.slice(millisecondsLength + 1, millisecondsLength + 1 + counterDigits), 16),
  };
}
