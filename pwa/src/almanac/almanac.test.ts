import { beforeEach, describe, expect, it } from "vitest";
import { Almanac, type WorkerPort } from "./almanac";
import type { Question } from "./protocol";

/** A worker that answers only when told to. */
class Port implements WorkerPort {
  onmessage: WorkerPort["onmessage"] = null;
  onerror: WorkerPort["onerror"] = null;
  asked: Question[] = [];
  ended = false;
  postMessage = (question: Question) => void this.asked.push(question);
  terminate = () => void (this.ended = true);
  say = (data: unknown) => this.onmessage?.({ data } as MessageEvent);
  answer = (answer: unknown) => this.say({ id: this.asked.at(-1)!.id, answer });
}

let ports: Port[];
let almanac: Almanac;
const port = () => ports.at(-1)!;

beforeEach(() => {
  ports = [];
  almanac = new Almanac(() => ports[ports.push(new Port()) - 1]!);
});

const verbs = () => port().asked.map((question) => (question.act === "ask" ? question.verb : question.act));

describe("the almanac", () => {
  it("starts its worker at the first question and waits for it to be ready", async () => {
    expect(ports.length).toBe(0);
    const answer = almanac.ask("assess", { on: "2026-07-10" });
    expect(port().asked).toEqual([]);
    port().say({ started: true });
    port().answer({ findings: [] });
    expect(await answer).toEqual({ findings: [] });
  });

  it("asks one thing at a time, in order", async () => {
    const all = [almanac.upsert([]), almanac.ask("assess", {}), almanac.forget([])];
    port().say({ started: true });
    expect(verbs()).toEqual(["upsert"]);
    port().answer({});
    port().answer({});
    port().answer({});
    await Promise.all(all);
    expect(verbs()).toEqual(["upsert", "assess", "forget"]);
  });

  it("never puts a question that was called off, and drops the answer to one that runs", async () => {
    const [one, two] = [new AbortController(), new AbortController()];
    const running = almanac.ask("picture", 1, one.signal);
    const queued = almanac.ask("picture", 2, two.signal);
    const wanted = almanac.ask("picture", 3);
    port().say({ started: true });
    two.abort("left");
    one.abort("left");
    port().answer("unwanted");
    port().answer("wanted");
    await expect(running).rejects.toBe("left");
    await expect(queued).rejects.toBe("left");
    expect([await wanted, port().asked.length]).toEqual(["wanted", 2]);
  });

  it("gives the almanac's own sentence when it cannot answer", async () => {
    const answer = almanac.ask("picture", {});
    port().say({ started: true });
    port().say({ id: 1, error: 'planting "x" is not among the records' });
    await expect(answer).rejects.toMatchObject({ trouble: { code: "almanac-failed", detail: 'planting "x" is not among the records' } });
  });

  it("rejects all when the worker fails, and starts another for the next question", async () => {
    const lost = [almanac.ask("a", 1), almanac.ask("b", 2)];
    port().say({ started: false, error: "the almanac could not be fetched (404)" });
    for (const answer of lost) await expect(answer).rejects.toMatchObject({ trouble: { code: "no-almanac" } });
    expect(port().ended).toBe(true);
    const next = almanac.ask("c", 3);
    port().say({ started: true });
    port().answer(7);
    expect([await next, ports.length]).toEqual([7, 2]);
  });
});
