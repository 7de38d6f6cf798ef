// A bad line between phone and server: it can be slow, and it can break in the
// middle of a picture. It reads just enough of HTTP/1.1 (RFC 9112) on the way up
// to know which bytes are a picture's; the way down it passes on as it is.
import { once } from "node:events";
import net from "node:net";
import { setTimeout as pause } from "node:timers/promises";

const HEAD_END = "\r\n\r\n";
const PARCEL = 16 * 1024; // bytes let through at a time on a slow line

function headOf(text) {
  const [line, ...lines] = text.split("\r\n");
  const [method, target] = line.split(" ");
  const fields = new Map(lines.map((field) => [field.slice(0, field.indexOf(":")).toLowerCase(), field.slice(field.indexOf(":") + 1).trim()]));
  return { method, target, fields, length: Number(fields.get("content-length") ?? 0) };
}

/** Tells a stream of requests apart: yields {head} and then {body} parts, each with its bytes. */
async function* requestsIn(stream) {
  let held = Buffer.alloc(0);
  let left = 0;
  for await (const chunk of stream) {
    held = held.length ? Buffer.concat([held, chunk]) : chunk;
    while (held.length > 0) {
      if (left > 0) {
        const bytes = held.subarray(0, left);
        held = held.subarray(bytes.length);
        left -= bytes.length;
        yield { bytes };
        continue;
      }
      const end = held.indexOf(HEAD_END);
      if (end < 0) break;
      const head = headOf(held.toString("latin1", 0, end));
      const bytes = held.subarray(0, end + HEAD_END.length);
      held = held.subarray(bytes.length);
      left = head.length;
      yield { head, bytes };
    }
  }
}

/** An answer that the server never gave. */
function inPlace({ status, type = "application/json", body = "" }) {
  return [`HTTP/1.1 ${status} Fault`, `Content-Type: ${type}`, `Content-Length: ${Buffer.byteLength(body)}`, "Connection: close", "", body].join("\r\n");
}

/** Whether a request carries a piece of an original. */
const isPiece = (head) => head.method === "PATCH" && head.target.includes("/media/");

export class Proxy {
  #listening;
  #port = 0;
  #line = Promise.resolve();
  #sockets = new Set();
  /** Bytes a second on the way up; null is as fast as the machine. */
  bytesPerSecond = null;
  /** Asked with each piece of an original; true breaks the connection in the middle of it. */
  breaks = () => false;
  /** Asked with the head of each request; what it gives is answered in the server's place: {status, type, body}. */
  answers = () => null;
  /** Each piece of an original that came by: where it began, its length, how much of it was let through. */
  pieces = [];
  /** Each request that came by, as "METHOD path", in order. */
  asked = [];

  static async make() {
    const proxy = new Proxy();
    proxy.#listening = net.createServer((phone) => void proxy.#join(phone)).listen(0, "localhost");
    await once(proxy.#listening, "listening");
    proxy.address = `http://localhost:${proxy.#listening.address().port}`;
    return proxy;
  }

  /** Leads to a server's port from now on. */
  to(port) {
    this.#port = port;
  }

  async #join(phone) {
    const server = net.connect(this.#port, "localhost");
    for (const [socket, other] of [[phone, server], [server, phone]]) {
      this.#sockets.add(socket);
      socket.on("error", () => other.destroy());
      socket.on("close", () => (this.#sockets.delete(socket), other.destroy()));
    }
    server.pipe(phone);
    try {
      await this.#pass(phone, server);
    } catch {
      // A side that hangs up is what this line is for.
    }
    server.end();
  }

  async #pass(phone, server) {
    let piece = null, breakAt = Infinity, instead = null, unread = 0;
    for await (const { head, bytes } of requestsIn(phone)) {
      if (head) {
        this.asked.push(`${head.method} ${head.target}`);
        [instead, unread] = [this.answers(head), head.length];
      } else unread -= bytes.length;
      if (instead) {
        if (unread === 0) return void (phone.end(inPlace(instead)), server.destroy());
        continue;
      }
      if (head) {
        piece = isPiece(head) ? { offset: Number(head.fields.get("upload-offset")), length: head.length, passed: 0 } : null;
        if (piece) this.pieces.push(piece);
        breakAt = piece && this.breaks(piece) ? Math.floor(piece.length / 2) : Infinity;
        await this.#send(server, bytes);
        continue;
      }
      const part = piece ? bytes.subarray(0, breakAt - piece.passed) : bytes;
      await this.#send(server, part);
      if (!piece) continue;
      piece.passed += part.length;
      if (piece.passed >= breakAt) return void (phone.resetAndDestroy(), server.destroy());
    }
  }

  async #send(server, bytes) {
    for (let at = 0; at < bytes.length; at += PARCEL) {
      const parcel = bytes.subarray(at, at + PARCEL);
      await this.#pace(parcel.length);
      if (!server.write(parcel)) await once(server, "drain");
    }
  }

  /** All connections share the one line. */
  #pace(length) {
    if (this.bytesPerSecond === null) return Promise.resolve();
    this.#line = this.#line.then(() => this.bytesPerSecond && pause((1000 * length) / this.bytesPerSecond));
    return this.#line;
  }

  async close() {
    this.bytesPerSecond = null;
    for (const socket of this.#sockets) socket.destroy();
    this.#listening.close();
    await once(this.#listening, "close");
  }
}
