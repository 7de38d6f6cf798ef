/**
 * A small server for tests, spoken to through `fetch`: it applies every change in
 * the order sent, remembers answers by change id, keeps files by the piece, and
 * can cut the connection before or after it has done what it was asked.
 */
import { createHash } from "node:crypto";
import { bucketOf, emptyDigest, exchange, markOf } from "../store/digest";
import type { FeedRecord } from "../store/feed";
import type { Ref } from "../words/records";

type WireChange = { id: string; record: Ref; base: number; at: string; set?: Record<string, unknown>; gone?: boolean };
type Cut = "before" | "after" | null;

export class FakeServer {
  epoch = "a";
  /** The last sequence that the present epoch shares with the one before. */
  fork = 0;
  seq = 0;
  pageSize = 500;
  readonly records = new Map<Ref, FeedRecord>();
  readonly outcomes = new Map<string, { id: string; seq: number; at: string }>();
  readonly files = new Map<string, { bytes: number[]; complete: boolean }>();
  readonly previews = new Map<string, ArrayBuffer>();
  /** Every request in order, as "METHOD path". */
  readonly requests: string[] = [];
  received = 0;
  /** Asked before each request: whether to cut it off, or what to answer instead. */
  interfere: (request: Request) => Cut | Response = () => null;
  /** Refuses changes, by a sentence. */
  judge: (change: WireChange) => string | null = () => null;

  readonly fetch = async (input: RequestInfo | URL, init?: RequestInit): Promise<Response> => {
    const request = new Request(new URL(String(input), "https://garden.test"), init);
    this.requests.push(`${request.method} ${new URL(request.url).pathname}`);
    const interference = this.interfere(request.clone());
    if (interference instanceof Response) return interference;
    if (interference === "before") throw new TypeError("network error");
    const response = await this.#answer(request);
    if (interference === "after") throw new TypeError("network error");
    return response;
  };

  /** Writes a record as another phone would have. */
  put(record: Ref, fields: Record<string, unknown>, at = `2026-06-02T09:15:00.000Z-0000-others`): void {
    this.#merge({ id: `other${this.seq}`, record, base: 0, at, set: fields });
  }

  async #answer(request: Request): Promise<Response> {
    const path = new URL(request.url).pathname.replace("/api/v1/gardens/g/", "");
    if (path === "sync") return this.#sync(await request.json());
    if (path === "sums") return json({ cursor: this.#cursor, sums: await this.#sums() });
    if (path.startsWith("sums/")) return json({ cursor: this.#cursor, records: await this.#bucket(Number(path.slice(5))) });
    return this.#media(path.split("/").slice(1), request);
  }

  get #cursor(): string {
    return `${this.epoch}.${this.seq}`;
  }

  async #sync(asked: { cursor: string; changes: WireChange[] }): Promise<Response> {
    const [epoch, seq] = asked.cursor === "" ? [this.epoch, "0"] : asked.cursor.split(".");
    if (epoch !== this.epoch) return json({ code: "other_epoch", why: "restored", fork: this.fork }, 409);
    const refused = asked.changes.flatMap((change) => (this.judge(change) ? [{ id: change.id, code: "invalid", why: this.judge(change) }] : []));
    const applied = asked.changes.filter((change) => !this.judge(change)).map((change) => this.#merge(change));
    const newer = [...this.records.values()].filter((record) => record.seq > Number(seq)).sort((a, b) => a.seq - b.seq);
    const records = newer.slice(0, this.pageSize);
    const more = newer.length > records.length;
    const cursor = more ? `${this.epoch}.${records.at(-1)!.seq}` : this.#cursor;
    const digest = more ? undefined : await this.#digest();
    return json({ applied, refused, records, cursor, more, digest, now: "2026-06-02T09:15:00.000Z" });
  }

  #merge(change: WireChange): { id: string; seq: number; at: string } {
    const known = this.outcomes.get(change.id);
    if (known) return known;
    this.seq += 1;
    const before = this.records.get(change.record);
    const all = { ...before?.fields, ...change.set };
    const at = { ...before?.at, ...Object.fromEntries(Object.keys(change.set ?? {}).map((name) => [name, change.at])) };
    const fields = Object.fromEntries(Object.entries(all).filter(([, value]) => value !== null));
    const gone = change.gone ?? before?.gone ?? false;
    this.records.set(change.record, { record: change.record, seq: this.seq, fields, at, ...(gone && { gone }) });
    const outcome = { id: change.id, seq: this.seq, at: change.at };
    this.outcomes.set(change.id, outcome);
    return outcome;
  }

  async #digest(): Promise<string> {
    let sum = emptyDigest;
    for (const record of this.records.values()) if (!record.gone) sum = exchange(sum, "", await markOf(record.record, record.at));
    return sum;
  }

  async #sums(): Promise<string[]> {
    const sums = new Array<string>(256).fill(emptyDigest);
    for (const { record, at, gone } of this.records.values()) {
      const bucket = await bucketOf(record);
      if (!gone) sums[bucket] = exchange(sums[bucket]!, "", await markOf(record, at));
    }
    return sums;
  }

  async #bucket(bucket: number): Promise<FeedRecord[]> {
    const all = await Promise.all([...this.records.values()].map(async (record) => [await bucketOf(record.record), record] as const));
    return all.filter(([of]) => of === bucket).map(([, record]) => record);
  }

  async #media([sha, , width]: string[], request: Request): Promise<Response> {
    const file = this.files.get(sha!) ?? { bytes: [], complete: false };
    if (request.method === "PUT") {
      this.previews.set(`${sha}/${width}`, await request.arrayBuffer());
      return new Response(null, { status: 204 });
    }
    if (request.method === "PATCH") return this.#append(sha!, file, request);
    return told(200, file);
  }

  async #append(sha: string, file: { bytes: number[]; complete: boolean }, request: Request): Promise<Response> {
    if (Number(request.headers.get("Upload-Offset")) !== file.bytes.length) return told(409, file);
    const piece = new Uint8Array(await request.arrayBuffer());
    this.received += piece.length;
    for (const byte of piece) file.bytes.push(byte);
    if (file.bytes.length === Number(request.headers.get("Upload-Length"))) {
      file.complete = createHash("sha256").update(new Uint8Array(file.bytes)).digest("hex") === sha;
      if (!file.complete) file.bytes = [];
    }
    this.files.set(sha, file);
    return told(file.complete || file.bytes.length > 0 ? 204 : 422, file);
  }
}

function told(status: number, file: { bytes: number[]; complete: boolean }): Response {
  const headers = { "Upload-Offset": String(file.bytes.length), ...(file.complete && { "Upload-Complete": "?1" }) };
  return new Response(status === 422 ? JSON.stringify({ code: "wrong_content" }) : null, { status, headers: { ...headers, "Content-Type": "application/json" } });
}

export function json(body: unknown, status = 200): Response {
  return new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json" } });
}
