import { taps, type Taps } from "./taps";

/** Wraps what a tap does so that a finger's second one on the same thing within a moment does nothing. */
export function steady<Args extends unknown[]>(handle: (...args: Args) => void, of: Pick<Taps, "bounced"> = taps): (...args: Args) => void {
  return (...args) => {
    if (!of.bounced) handle(...args);
  };
}
