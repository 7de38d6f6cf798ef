/** The page's one way to the worker that makes previews: one picture at a time, since each takes some 50 MB while it is scaled. */
import type { Width } from "../store/held";
import { TroubleError } from "../words/trouble";
import type { PreviewQuestion, PreviewReply } from "./protocol";

/** The part of a Worker that is used here. */
export type PreviewPort = Pick<Worker, "postMessage" | "terminate"> & {
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
};

export type Previews = ReadonlyMap<Width, ArrayBuffer>;

/** How long the worker stays with nothing to do, milliseconds: it holds some megabytes, and a walk with a camera has pauses. */
const restMs = 60_000;

export class PreviewMaker {
  readonly #make: () => PreviewPort;
  #worker: PreviewPort | null = null;
  #tail: Promise<unknown> = Promise.resolve();
  #lastId = 0;
  #rest: ReturnType<typeof setTimeout> | undefined;

  constructor(make: () => PreviewPort) {
    this.#make = make;
  }

  /** Rejects with "unreadable-picture" when the phone cannot read the picture, and otherwise when the worker did not do its work. */
  of(picture: Blob): Promise<Previews> {
    const turn = this.#tail.then(() => this.#ask(picture));
    this.#tail = turn.catch(() => undefined);
    return turn;
  }

  #ask(picture: Blob): Promise<Previews> {
    clearTimeout(this.#rest);
    const worker = (this.#worker ??= this.#make());
    const question: PreviewQuestion = { id: ++this.#lastId, picture };
    return new Promise((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<PreviewReply>) => {
        if (data.id !== question.id) return;
        this.#rest = setTimeout(() => this.#stop(), restMs);
        if ("previews" in data) resolve(new Map(data.previews));
        else reject(new TroubleError("unreadable-picture", data.unreadable));
      };
      worker.onerror = (event) => {
        this.#stop();
        reject(new Error(event.message || "the previews' worker stopped"));
      };
      worker.postMessage(question);
    });
  }

  #stop(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }
}

/** The maker of this app, in a worker of its own. */
export function openPreviews(): PreviewMaker {
  return new PreviewMaker(() => new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "previews" }));
}
