// A device that is no phone: it speaks to the server's API with a token of its
// own and by no proxy, so that what phones say can be held against what the
// server has.
import { createHash, randomUUID } from "node:crypto";

export const sha256 = (bytes) => createHash("sha256").update(bytes).digest("hex");

export class Outsider {
  #count = 0;

  /** Joins by a link, as anyone does. */
  static async join(server, link, name = "Ada", device = "bench") {
    const outsider = new Outsider();
    outsider.server = server;
    const code = new URL(link).hash.slice(1);
    const said = await outsider.#ask("/api/v1/join", { method: "POST", body: JSON.stringify({ code, device, name }) }).then((answer) => answer.json());
    outsider.token = said.token;
    outsider.garden = said.garden;
    return outsider;
  }

  async #ask(path, { headers, ...rest } = {}) {
    const known = this.token ? { Authorization: `Bearer ${this.token}` } : {};
    const type = typeof rest.body === "string" ? { "Content-Type": "application/json" } : {};
    const answer = await fetch(this.server.listening + path, { ...rest, headers: { ...known, ...type, ...headers } });
    if (!answer.ok) throw new Error(`${rest.method ?? "GET"} ${path}: ${answer.status} ${await answer.text()}`);
    return answer;
  }

  #inGarden(path, asked) {
    return this.#ask(`/api/v1/gardens/${this.garden}${path}`, asked);
  }

  async invite(role = "helper") {
    const made = await this.#inGarden("/invites", { method: "POST", body: JSON.stringify({ role }) });
    return (await made.json()).url;
  }

  /** Writes records: pairs of a reference and its fields. */
  async write(...records) {
    const changes = records.map(([record, set]) => {
      const count = (this.#count++).toString(16).padStart(4, "0");
      return { id: randomUUID(), record, base: 0, at: `${new Date().toISOString()}-${count}-bench1`, set };
    });
    const { refused } = await this.#sync({ cursor: "", changes });
    if (refused?.length) throw new Error(`not taken: ${JSON.stringify(refused)}`);
  }

  async #sync(body) {
    return (await this.#inGarden("/sync", { method: "POST", body: JSON.stringify({ limit: 2000, ...body }) })).json();
  }

  /** All live records by reference, as a new phone would get them. */
  async pull() {
    const records = new Map();
    let answer = { cursor: "", more: true };
    while (answer.more) {
      answer = await this.#sync({ cursor: answer.cursor, changes: [] });
      for (const record of answer.records) records.set(record.record, record);
    }
    return records;
  }

  /** What the server says that all live records add up to. */
  async digest() {
    let answer = { cursor: "", more: true };
    while (answer.more) answer = await this.#sync({ cursor: answer.cursor, changes: [] });
    return answer.digest;
  }

  /** The bytes of an original, or of a preview of a width. */
  async media(sha, width) {
    const answer = await this.#inGarden(`/media/${sha}${width ? `?w=${width}` : ""}`);
    return Buffer.from(await answer.arrayBuffer());
  }

  /** Whether the server has the whole original. */
  async hasOriginal(sha) {
    const answer = await this.#inGarden(`/media/${sha}`, { method: "HEAD" });
    return answer.headers.get("Upload-Complete") === "?1";
  }

  async assessment(on) {
    return (await this.#inGarden(`/assessment?on=${on}`)).text();
  }
}

/** Waits until what `look` finds is truthy, and gives it. */
export async function until(look, what, { timeoutMs = 120_000, pauseMs = 100 } = {}) {
  const end = Date.now() + timeoutMs;
  for (;;) {
    const found = await look();
    if (found) return found;
    if (Date.now() > end) throw new Error(`waited ${timeoutMs / 1000} s in vain: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, pauseMs));
  }
}
