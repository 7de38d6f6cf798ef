/**
 * The page's one way to the almanac: promises, answered in the order asked, each
 * of which can be called off while it waits. Nothing that a person writes awaits
 * this.
 */
import type { Ref } from "../words/records";
import { TroubleError } from "../words/trouble";
import type { AlmanacRecord, Question, Reply, Started } from "./protocol";

/** The part of a Worker that is used here. */
export type WorkerPort = Pick<Worker, "postMessage" | "terminate"> & {
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
};

type Waiting = {
  readonly question: Question;
  readonly resolve: (answer: unknown) => void;
  readonly reject: (error: unknown) => void;
};

export class Almanac {
  readonly #make: () => WorkerPort;
  #worker: WorkerPort | null = null;
  #started = false;
  #losses = 0;
  #lastId = 0;
  /** Questions that were not put to the worker yet, so that they can be called off. */
  #waiting: Waiting[] = [];
  #asking: Waiting | null = null;

  constructor(make: () => WorkerPort) {
    this.#make = make;
  }

  /** How often a worker was lost, and with it all records that it held. */
  get losses(): number {
    return this.#losses;
  }

  /** Loads records anew or over what was loaded under the same reference. */
  async upsert(records: readonly AlmanacRecord[]): Promise<void> {
    await this.#put((id) => ({ id, act: "upsert", records }));
  }

  async forget(refs: readonly Ref[]): Promise<void> {
    await this.#put((id) => ({ id, act: "forget", refs }));
  }

  /** Asks a verb of almanac.md. Rejects with a TroubleError, or with the signal's reason when called off. */
  async ask<T>(verb: string, question: unknown, signal?: AbortSignal): Promise<T> {
    return (await this.#put((id) => ({ id, act: "ask", verb, question }), signal)) as T;
  }

  /** Lets the worker go; questions that wait are rejected. The next question starts another, without records. */
  stop(): void {
    this.#fail(new TroubleError("no-almanac"));
  }

  #put(make: (id: number) => Question, signal?: AbortSignal): Promise<unknown> {
    if (signal?.aborted) return Promise.reject(signal.reason);
    return new Promise((resolve, reject) => {
      const waiting: Waiting = { question: make(++this.#lastId), resolve, reject };
      signal?.addEventListener("abort", () => this.#callOff(waiting, signal.reason), { once: true });
      this.#waiting.push(waiting);
      this.#worker ??= this.#start();
      this.#next();
    });
  }

  #callOff(waiting: Waiting, reason: unknown): void {
    this.#waiting = this.#waiting.filter((other) => other !== waiting);
    waiting.reject(reason);
  }

  #start(): WorkerPort {
    const worker = this.#make();
    worker.onmessage = (event) => this.#hear(event.data as Started | Reply);
    worker.onerror = (event) => this.#fail(new TroubleError("no-almanac", event.message));
    return worker;
  }

  #hear(message: Started | Reply): void {
    if (!("started" in message)) return this.#answered(message);
    if (!message.started) return this.#fail(new TroubleError("no-almanac", message.error));
    this.#started = true;
    this.#next();
  }

  #answered(reply: Reply): void {
    const asked = this.#asking;
    this.#asking = null;
    if (asked && "error" in reply) asked.reject(new TroubleError("almanac-failed", reply.error));
    else if (asked) asked.resolve((reply as { answer: unknown }).answer);
    this.#next();
  }

  #next(): void {
    if (!this.#started || this.#asking) return;
    this.#asking = this.#waiting.shift() ?? null;
    if (this.#asking) this.#worker!.postMessage(this.#asking.question);
  }

  #fail(error: TroubleError): void {
    const lost = this.#asking ? [this.#asking, ...this.#waiting] : this.#waiting;
    this.#losses += 1;
    this.#worker?.terminate();
    this.#worker = this.#asking = null;
    this.#started = false;
    this.#waiting = [];
    for (const { reject } of lost) reject(error);
  }
}

/** The almanac of this app, in a worker of its own. */
export function openAlmanac(): Almanac {
  return new Almanac(() => new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "almanac" }));
}
