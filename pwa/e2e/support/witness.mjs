// A proxy that everything a browser says must pass, whoever in it says it: page,
// worker, service worker, or the browser itself. It keeps whom was spoken to.
import { once } from "node:events";
import http from "node:http";

/**
 * What Chromium asks of its maker for itself, whatever page is open: its parts' newer
 * versions, who is signed in, which fields forms have. By exact names, so that a font
 * or a script fetched from the same maker is heard.
 */
const browsersOwn = new Set(["update.googleapis.com", "accounts.google.com", "content-autofill.googleapis.com"]);

export class Witness {
  #proxy;
  #sockets = new Set();
  /** "host:port" of whoever was asked for anything, and was to be connected with. */
  hosts = new Set();
  /** "METHOD path" of what was asked, in order. */
  asked = [];

  static async make() {
    const witness = new Witness();
    const proxy = http.createServer((request, response) => witness.#pass(request, response));
    proxy.on("connect", ({ url }, socket) => {
      witness.hosts.add(url);
      socket.end("HTTP/1.1 502 Bad Gateway\r\n\r\n");
    });
    proxy.on("connection", (socket) => {
      witness.#sockets.add(socket);
      socket.on("close", () => witness.#sockets.delete(socket));
      socket.on("error", () => socket.destroy());
    });
    witness.#proxy = proxy.listen(0, "localhost");
    await once(proxy, "listening");
    witness.address = `http://localhost:${proxy.address().port}`;
    return witness;
  }

  /** How a browser is told to go this way, its own machine's addresses included. */
  get options() {
    return { proxy: { server: this.address, bypass: "<-loopback>" } };
  }

  /** Whom the app spoke to, in order. */
  spokenTo() {
    return [...this.hosts].filter((host) => !browsersOwn.has(host.replace(/:443$/, "")));
  }

  #pass(request, response) {
    const { host, hostname, port, pathname, search } = new URL(request.url);
    this.hosts.add(host);
    this.asked.push(`${request.method} ${pathname}`);
    const onward = http.request({ hostname, port, path: pathname + search, method: request.method, headers: request.headers }, (answer) => {
      response.writeHead(answer.statusCode, answer.headers);
      answer.pipe(response);
    });
    onward.on("error", () => response.destroy());
    response.on("close", () => onward.destroy());
    request.pipe(onward);
  }

  async close() {
    this.#proxy.close();
    for (const socket of this.#sockets) socket.destroy();
    await once(this.#proxy, "close");
  }
}
