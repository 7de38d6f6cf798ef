// The app as one version and then the next: what stands before the real server
// passes everything on, and from `publish()` gives index.html and the service
// worker as a later build would, told apart by a mark in the page.
import { once } from "node:events";
import http from "node:http";

const MARK = "haulm-version";

export class Versions {
  #server;
  #listening;
  /** 1, or the number of the latest that was published. */
  version = 1;
  /** Paths that answer 503, as of a server that fails half-way through an update. */
  failing = /^$/;

  static async make() {
    const versions = new Versions();
    versions.#listening = http.createServer((request, response) => void versions.#pass(request, response)).listen(0, "localhost");
    await once(versions.#listening, "listening");
    versions.address = `http://localhost:${versions.#listening.address().port}`;
    return versions;
  }

  before(server) {
    this.#server = new URL(server.listening);
  }

  publish() {
    this.version++;
  }

  async #pass(request, response) {
    const path = new URL(request.url, this.address).pathname;
    if (this.failing.test(path)) return response.writeHead(503).end();
    const changed = this.version > 1 && (path === "/index.html" || path === "/service-worker.js");
    const headers = changed ? { ...request.headers, "accept-encoding": "identity" } : request.headers;
    delete headers["if-none-match"];
    const upstream = http.request({ hostname: this.#server.hostname, port: this.#server.port, method: request.method, path: request.url, headers });
    upstream.on("response", (answer) => (changed ? this.#change(path, answer, response) : pipe(answer, response)));
    upstream.on("error", () => response.destroy());
    response.on("close", () => upstream.destroy());
    request.pipe(upstream);
  }

  async #change(path, answer, response) {
    const parts = [];
    for await (const part of answer) parts.push(part);
    const text = Buffer.concat(parts).toString();
    const changed = path === "/index.html" ? this.#marked(text) : this.#renewed(text);
    const { "content-length": _, etag: __, ...headers } = answer.headers;
    response.writeHead(answer.statusCode, headers).end(changed);
  }

  #marked(page) {
    return page.replace("<head>", `<head><meta name="${MARK}" content="${this.version}">`);
  }

  /** As a later build writes it: the same files but for the page, whose revision is another. */
  #renewed(worker) {
    const renewed = worker.replace(/("revision":")[^"]*("[^{}]*"url":"index\.html")/, `$1${String(this.version).repeat(32)}$2`);
    if (renewed === worker) throw new Error("the service worker names no index.html to renew");
    return renewed;
  }

  async close() {
    this.#listening.closeAllConnections();
    this.#listening.close();
  }
}

function pipe(answer, response) {
  response.writeHead(answer.statusCode, answer.headers);
  answer.pipe(response);
}

/** The version of the app that a page shows. */
export const versionOf = (page) => page.evaluate((mark) => Number(document.querySelector(`meta[name="${mark}"]`)?.content ?? 1), MARK);
