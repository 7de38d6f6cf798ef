// Keeps what the server has acknowledged to a phone, so that it can be asked for
// again after a crash: fields by record, previews and whole originals by name.
export class Acknowledged {
  #reading = Promise.resolve();
  /** reference → field → value, as last acknowledged. */
  records = new Map();
  /** Names of originals that were acknowledged whole. */
  originals = new Set();
  /** "sha/width" of previews. */
  previews = new Set();

  /** Listens to all that a browser hears from the server. */
  watch(context) {
    context.on("response", (answer) => {
      this.#reading = this.#reading.then(() => this.#hear(answer)).catch(() => undefined); // a page that was left takes its answers along
    });
  }

  /** Resolves when all that was heard is kept. */
  settled() {
    return this.#reading;
  }

  async #hear(answer) {
    const request = answer.request();
    const { pathname } = new URL(answer.url());
    if (!answer.ok()) return;
    if (pathname.endsWith("/sync")) return this.#heedChanges(request.postDataJSON()?.changes ?? [], (await answer.json()).applied ?? []);
    const [, sha, width] = /\/media\/([0-9a-f]{64})(?:\/preview\/(\d+))?$/.exec(pathname) ?? [];
    if (request.method() === "PUT" && width) this.previews.add(`${sha}/${width}`);
    if (request.method() === "PATCH" && answer.headers()["upload-complete"] === "?1") this.originals.add(sha);
  }

  #heedChanges(changes, applied) {
    const ids = new Set(applied.map(({ id }) => id));
    for (const { id, record, set = {} } of changes) {
      if (!ids.has(id)) continue;
      const fields = this.records.get(record) ?? new Map();
      for (const [field, value] of Object.entries(set)) fields.set(field, value);
      this.records.set(record, fields);
    }
  }
}
