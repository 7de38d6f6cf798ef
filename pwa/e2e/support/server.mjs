// The real binary as the browser tests run it: on a port of its own, with a data
// folder of its own, to be stopped, killed and started again at will.
import { execFile, spawn } from "node:child_process";
import { once } from "node:events";
import { cpSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import net from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

const binary = fileURLToPath(new URL("../../../haulm", import.meta.url));

const READY_TRIES = 1200, READY_PAUSE_MS = 50; // a minute: a demo's first start on a loaded machine

async function freePort() {
  const probe = net.createServer().listen(0, "localhost");
  await once(probe, "listening");
  const { port } = probe.address();
  probe.close();
  await once(probe, "close");
  return port;
}

/** A server that keeps its address and its data through stops and crashes. */
export class Server {
  #process = null;
  #output = "";

  /** `publicAddress` is where people open it, when that is not where it listens. */
  static async make({ demo = false, publicAddress = null } = {}) {
    if (!existsSync(binary)) throw new Error(`${binary} is missing: run make build`);
    const server = new Server();
    server.flags = demo ? ["--demo"] : [];
    server.port = await freePort();
    server.listening = `http://localhost:${server.port}`;
    server.address = publicAddress ?? server.listening;
    server.data = mkdtempSync(path.join(tmpdir(), "haulm-e2e-"));
    return server;
  }

  /** Another server with a copy of the data, to take this one's place at its address; this one must be stopped. */
  copy() {
    const other = Object.assign(new Server(), { flags: this.flags, port: this.port, listening: this.listening, address: this.address });
    other.data = mkdtempSync(path.join(tmpdir(), "haulm-e2e-"));
    cpSync(this.data, other.data, { recursive: true });
    return other;
  }

  /** Runs a command on the data, as a person at the machine does, and gives what it says. */
  async command(name, ...args) {
    const { stdout } = await promisify(execFile)(binary, [name, "--data", this.data, ...args]);
    return stdout;
  }

  /** Resolves when it has said all that it says at its start, and is ready. */
  async start() {
    const args = ["serve", "--data", this.data, "--listen", `localhost:${this.port}`, "--public-url", this.address, ...this.flags];
    const heard = this.#output.length;
    this.#process = spawn(binary, args, { stdio: ["ignore", "pipe", "pipe"] });
    for (const stream of [this.#process.stdout, this.#process.stderr]) {
      stream.on("data", (text) => (this.#output += text));
    }
    for (let tries = 0; tries < READY_TRIES; tries++) {
      if (this.#ended) throw new Error(`the server stopped:\n${this.#output}`);
      if (/^stop: /m.test(this.#output.slice(heard)) && (await this.#ready())) return this;
      await pause(READY_PAUSE_MS);
    }
    throw new Error(`the server did not become ready:\n${this.#output}`);
  }

  #ready() {
    return fetch(`${this.listening}/readyz`).then((answer) => answer.ok, () => false);
  }

  get #ended() {
    return !this.#process || this.#process.exitCode !== null || this.#process.signalCode !== null;
  }

  /** The address that makes the first keeper, as the first start prints it. */
  get joinLink() {
    const found = /join: (\S+)/.exec(this.#output);
    if (!found) throw new Error(`no join link was printed:\n${this.#output}`);
    return found[1];
  }

  async #end(signal) {
    if (this.#ended) return;
    const ended = once(this.#process, "exit");
    this.#process.kill(signal);
    await ended;
  }

  stop() { return this.#end("SIGTERM"); }
  kill() { return this.#end("SIGKILL"); }

  async remove() {
    await this.kill();
    rmSync(this.data, { recursive: true, force: true });
  }
}
