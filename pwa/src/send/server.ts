/** The server as the line sees it: one method for each thing that it is asked. Every failure is a TroubleError. */
import type { Cursor, Sha256 } from "../words/ids";
import type { Answer, FeedRecord } from "../store/feed";
import type { HeldChange, Width } from "../store/held";
import type { TakenIn } from "../state/contract";
import { TroubleError } from "../words/trouble";
import { ask, askJson, type Fetch } from "./http";
import { fetchOriginal, type Fetching } from "./original";

/** How many records one answer may bring: some 500 kB of JSON, so that a new phone's first feed takes few round trips. */
const pullLimit = 1000;

/** Bytes that the server has on disk, and whether they are proven to be the whole file. */
export type Upload = Readonly<{ offset: number; complete: boolean }>;

export class Server {
  readonly #fetch: Fetch;
  readonly #base: string;
  readonly #now: () => number;

  constructor(garden: string, fetcher: Fetch, now: () => number) {
    this.#base = `/api/v1/gardens/${garden}`;
    this.#fetch = fetcher;
    this.#now = now;
  }

  /** Where the stream of new cursors is. */
  get live(): string {
    return `${this.#base}/live`;
  }

  /** Sends changes and reads the feed in one request. */
  async sync(cursor: Cursor, changes: readonly HeldChange[]): Promise<Answer> {
    const asked = this.#now();
    const json = { cursor, limit: pullLimit, changes: changes.map(onTheWire) };
    const said = await askJson(this.#fetch, `${this.#base}/sync`, { method: "POST", json });
    return { ...answerIn(said), heardMs: (asked + this.#now()) / 2 };
  }

  /** The server's 256 partial digests, and the cursor that they are for. */
  async sums(): Promise<{ cursor: Cursor; sums: readonly string[] }> {
    const said = (await askJson(this.#fetch, `${this.#base}/sums`)) as { cursor?: unknown; sums?: unknown };
    if (typeof said.cursor !== "string" || !Array.isArray(said.sums)) throw new TroubleError("not-haulm");
    return { cursor: said.cursor, sums: said.sums as string[] };
  }

  /** All records of one of the 256 parts. */
  async bucket(bucket: number): Promise<{ cursor: Cursor; records: readonly FeedRecord[] }> {
    const said = (await askJson(this.#fetch, `${this.#base}/sums/${bucket}`)) as { cursor?: unknown; records?: unknown };
    if (typeof said.cursor !== "string" || !Array.isArray(said.records)) throw new TroubleError("not-haulm");
    return { cursor: said.cursor, records: said.records as FeedRecord[] };
  }

  /** How much of a file the server has. */
  async uploadOf(sha: Sha256): Promise<Upload> {
    return uploadIn(await ask(this.#fetch, this.#media(sha), { method: "HEAD" }));
  }

  /** Sends a piece of a file, none of it when `piece` is empty, and gives what the server has then. */
  async append(sha: Sha256, offset: number, size: number, piece: Uint8Array<ArrayBuffer>): Promise<Upload> {
    const headers = {
      "Content-Type": "application/offset+octet-stream", "Upload-Offset": String(offset), "Upload-Length": String(size),
    };
    return uploadIn(await ask(this.#fetch, this.#media(sha), { method: "PATCH", body: piece, headers }));
  }

  /** Sends a preview, named by its original's hash and size. */
  async putPreview(sha: Sha256, width: Width, size: number, jpeg: ArrayBuffer): Promise<void> {
    const headers = { "Content-Type": "image/jpeg", "Haulm-Original-Length": String(size) };
    await ask(this.#fetch, `${this.#media(sha)}/preview/${width}`, { method: "PUT", body: jpeg, headers });
  }

  /** Has a saved file taken into the garden. */
  async takeIn(file: Blob): Promise<TakenIn> {
    const headers = { "Content-Type": "application/zip" };
    return takenIn(await askJson(this.#fetch, `${this.#base}/import`, { method: "POST", body: file, headers }));
  }

  /** Reads a preview. */
  async preview(sha: Sha256, width: Width): Promise<{ type: string; bytes: ArrayBuffer }> {
    const response = await ask(this.#fetch, `${this.#media(sha)}?w=${width}`);
    const type = response.headers.get("Content-Type") ?? "";
    if (!type.startsWith("image/")) throw new TroubleError("not-haulm");
    return { type, bytes: await response.arrayBuffer() };
  }

  /** Fetches an original, see fetchOriginal. */
  original(sha: Sha256, fetching: Fetching): Promise<{ type: string; bytes: ArrayBuffer }> {
    return fetchOriginal(this.#fetch, this.#media(sha), sha, fetching);
  }

  #media(sha: Sha256): string {
    return `${this.#base}/media/${sha}`;
  }
}

/** A change as the server takes it. */
export function onTheWire({ id, ref, base, at, set, gone }: HeldChange): object {
  return {
    id, record: ref, base, at,
    ...(Object.keys(set).length > 0 && { set }),
    ...(gone !== undefined && { gone }),
  };
}

/** Reads an answer, taking nothing on trust: what is not an answer of Haulm's changes nothing on the phone. */
function answerIn(said: unknown): Omit<Answer, "heardMs"> {
  const answer = said as Partial<Answer> | null;
  const sound = answer && typeof answer.cursor === "string" && typeof answer.now === "string" &&
    listOf(answer.applied, (a) => typeof a.id === "string" && Number.isInteger(a.seq)) &&
    listOf(answer.refused, (r) => typeof r.id === "string" && typeof r.why === "string") &&
    listOf(answer.records, (r) => typeof r.record === "string" && Number.isInteger(r.seq) && isObject(r.fields) && isObject(r.at));
  if (!sound) throw new TroubleError("not-haulm");
  return {
    applied: answer.applied ?? [], refused: answer.refused ?? [], records: answer.records ?? [],
    cursor: answer.cursor!, more: answer.more === true, now: answer.now!,
    ...(typeof answer.digest === "string" && answer.digest !== "" && { digest: answer.digest }),
  };
}

function listOf<T>(list: readonly T[] | undefined | null, sound: (item: T) => boolean): boolean {
  return list == null || (Array.isArray(list) && list.every((item) => isObject(item) && sound(item)));
}

function isObject(value: unknown): boolean {
  return typeof value === "object" && value !== null;
}

type Count = Readonly<{ new: number; known: number; aside: number }>;

/** Reads what the server says of a saved file. */
function takenIn(said: unknown): TakenIn {
  const { device, changes, originals, previews, strange, problems } = (said ?? {}) as Readonly<
    { device?: string; changes?: Count; originals?: Count; previews?: Count; strange?: number; problems?: TakenIn["aside"] }>;
  if (!changes || !originals || !previews || !Array.isArray(problems)) throw new TroubleError("not-haulm");
  return {
    device: String(device), changes: changes.new, photos: originals.new, known: changes.known + originals.known,
    aside: problems.map(({ entry, why }) => ({ entry: String(entry), why: String(why) })),
    asideCount: changes.aside + originals.aside + previews.aside + (strange ?? 0),
  };
}

function uploadIn(response: Response): Upload {
  const offset = Number(response.headers.get("Upload-Offset") ?? Number.NaN);
  if (!Number.isInteger(offset) || offset < 0) throw new TroubleError("not-haulm", undefined, response.status);
  return { offset, complete: response.headers.get("Upload-Complete") === "?1" };
}

