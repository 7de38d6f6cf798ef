import { troubleOf, type Trouble, type TroubleCode } from "../words/trouble";

/** The first pause after a failure, the factor from one to the next, and the longest, milliseconds. */
const firstPauseMs = 2_000;
const growth = 2;
const longestPauseMs = 5 * 60_000;

/** What no waiting mends: a person must act first. */
const final: ReadonlySet<TroubleCode> = new Set(["shut-out", "not-allowed"]);

export type LoopStatus = Readonly<{
  state: "resting" | "working" | "waiting" | "stopped";
  trouble: Trouble | null;
  /** Of the next try by itself, milliseconds since 1970. */
  nextTryMs: number | null;
}>;

export type LoopTools = Readonly<{
  now(): number;
  /** A number from 0 up to 1, drawn anew at each call. */
  random(): number;
  told(status: LoopStatus): void;
}>;

/**
 * Does one piece of work until nothing is left, again whenever it is woken, and
 * after a failure again and again with growing pauses. The pauses are drawn at
 * random between half and whole, so that a household's phones do not come back
 * all at once.
 */
export class Loop {
  readonly #work: () => Promise<void>;
  readonly #tools: LoopTools;
  #running: Promise<void> | null = null;
  #again = false;
  #failures = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #ended = false;

  constructor(work: () => Promise<void>, tools: LoopTools) {
    this.#work = work;
    this.#tools = tools;
  }

  /** Tries at once, or again after the try that runs. Resolves when that is over, well or not. */
  wake(): Promise<void> {
    if (this.#ended) return Promise.resolve();
    clearTimeout(this.#timer);
    this.#again = true;
    this.#running ??= this.#run().finally(() => (this.#running = null));
    return this.#running;
  }

  /** Resolves when no try runs. */
  quiet(): Promise<void> {
    return this.#running ?? Promise.resolve();
  }

  /** Makes no further try. One that runs ends by itself. */
  end(): void {
    this.#ended = true;
    clearTimeout(this.#timer);
  }

  async #run(): Promise<void> {
    while (this.#again && !this.#ended) {
      this.#again = false;
      this.#tools.told({ state: "working", trouble: null, nextTryMs: null });
      await this.#try();
    }
  }

  async #try(): Promise<void> {
    try {
      await this.#work();
      this.#failures = 0;
      this.#tools.told({ state: "resting", trouble: null, nextTryMs: null });
    } catch (thrown) {
      this.#failed(thrown);
    }
  }

  #failed(thrown: unknown): void {
    const trouble = troubleOf(thrown);
    if (final.has(trouble.code)) return this.#tools.told({ state: "stopped", trouble, nextTryMs: null });
    const pause = this.#pause();
    this.#failures += 1;
    clearTimeout(this.#timer);
    if (!this.#ended) this.#timer = setTimeout(() => void this.wake(), pause);
    this.#tools.told({ state: "waiting", trouble, nextTryMs: this.#tools.now() + pause });
  }

  #pause(): number {
    const whole = Math.min(longestPauseMs, firstPauseMs * growth ** this.#failures);
    return whole / 2 + (whole / 2) * this.#tools.random();
  }
}
