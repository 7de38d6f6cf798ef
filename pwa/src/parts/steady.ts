// A wet or gloved finger often taps twice. A second tap on the same thing within
// a moment does nothing.

const MOMENT_MS = 450; // longer than a double tap's usual 300 ms (common practice of touch systems), shorter than a thought

/** Wraps a handler so that it ignores taps that follow another, or its own making, too closely. */
export function steady<Args extends unknown[]>(handle: (...args: Args) => void, now: () => number = () => performance.now()): (...args: Args) => void {
  let last = now();
  return (...args) => {
    const since = now() - last;
    last = now();
    if (since >= MOMENT_MS) handle(...args);
  };
}
