/** Fetches an original from the server, with progress, to be given up at any moment. */
import { hex } from "../store/digest";
import type { Sha256 } from "../words/ids";
import { TroubleError } from "../words/trouble";
import { refusalOf, type Fetch } from "./http";

/** How long nothing may arrive before the line counts as dead, milliseconds: as long as for any answer. */
const silenceMs = 30_000;

export type Fetching = Readonly<{
  signal?: AbortSignal | undefined;
  /** Hears of bytes; `all` is 0 where the server does not say. */
  told?: ((done: number, all: number) => void) | undefined;
}>;

/** The original, proven against its name. Rejects with a TroubleError, or with the signal's reason when given up. */
export async function fetchOriginal(fetcher: Fetch, path: string, sha: Sha256, { signal, told }: Fetching): Promise<{ type: string; bytes: ArrayBuffer }> {
  const silence = new Silence(signal);
  try {
    const response = await fetcher(path, { credentials: "same-origin", signal: silence.signal });
    if (!response.ok) throw await refusalOf(response);
    const bytes = await readAll(response, silence, told);
    if (hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))) !== sha) throw new TroubleError("not-haulm");
    return { type: response.headers.get("Content-Type") ?? "", bytes };
  } catch (thrown) {
    signal?.throwIfAborted();
    throw thrown instanceof TroubleError ? thrown : new TroubleError("no-answer");
  } finally {
    silence.end();
  }
}

async function readAll(response: Response, silence: Silence, told: Fetching["told"]): Promise<ArrayBuffer> {
  const all = Number(response.headers.get("Content-Length") ?? 0);
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let done = 0;
  const reader = response.body!.getReader();
  for (let read = await reader.read(); !read.done; read = await reader.read()) {
    silence.broken();
    pieces.push(read.value);
    told?.((done += read.value.length), all);
  }
  return new Blob(pieces).arrayBuffer();
}

/** Ends a request that has gone silent, or that a person gave up. */
class Silence {
  readonly #ending = new AbortController();
  readonly #giveUp = () => this.#ending.abort();
  readonly #asked: AbortSignal | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(asked: AbortSignal | undefined) {
    this.#asked = asked;
    if (asked?.aborted) this.#giveUp();
    asked?.addEventListener("abort", this.#giveUp);
    this.broken();
  }

  get signal(): AbortSignal {
    return this.#ending.signal;
  }

  /** Something arrived. */
  broken(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(this.#giveUp, silenceMs);
  }

  end(): void {
    clearTimeout(this.#timer);
    this.#asked?.removeEventListener("abort", this.#giveUp);
  }
}
