// Which taps are a wet or gloved finger's second ones. A finger that bounces lands
// on the same thing or beside where it was a moment ago; a tap elsewhere is meant,
// however soon it comes.

const MOMENT_MS = 450; // longer than a double tap's usual 300 ms (common practice of touch systems), shorter than a thought
const BESIDE_PX = 24; // less than from one target's middle to the next one's edge

/** `on`: the thing under the finger; `field`: the field that a label brings the tap to; `pointed`: by a finger, not a key. */
export type Tap = Readonly<{ ms: number; x: number; y: number; pointed: boolean; on: unknown; field: unknown; screen: string }>;

export class Taps {
  #last: Tap | null = null;
  #bounced = false;

  /** Whether the tap that is being handled is a finger's second one. */
  get bounced(): boolean {
    return this.#bounced;
  }

  /** Watches every tap of a page before anything else does; gives what stops it. */
  listen(page: Document): () => void {
    const heed = (event: MouseEvent): void => {
      if (!this.heed(tapOf(event))) return;
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    page.addEventListener("click", heed, { capture: true });
    return () => page.removeEventListener("click", heed, { capture: true });
  }

  /** Whether a tap is to do nothing at all: a second one that lands on another screen than the first did. */
  heed(tap: Tap): boolean {
    const last = this.#last;
    if (last && last.field !== null && last.field === tap.on) return false; // the browser's own, of the label's tap
    this.#bounced = last !== null && bounces(last, tap);
    this.#last = this.#bounced ? { ...tap, screen: last!.screen } : tap;
    return this.#bounced && last!.screen !== tap.screen;
  }
}

/** A keyboard's tap has no place: only on the same thing is it the same. */
function bounces(last: Tap, tap: Tap): boolean {
  const soon = tap.ms - last.ms < MOMENT_MS;
  const beside = last.pointed && tap.pointed && Math.hypot(tap.x - last.x, tap.y - last.y) < BESIDE_PX;
  return soon && (beside || tap.on === last.on);
}

function tapOf({ target, timeStamp, clientX, clientY, detail }: MouseEvent): Tap {
  const on = target instanceof Element ? (target.closest("button, a, input, label, select, summary, textarea") ?? target) : null;
  const field = on instanceof HTMLLabelElement ? on.control : null;
  return { ms: timeStamp, x: clientX, y: clientY, pointed: detail > 0, on, field, screen: location.href };
}

/** Of this page. */
export const taps = new Taps();
