import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Almanac, type WorkerPort } from "../almanac/almanac";
import type { Question } from "../almanac/protocol";
import { Store } from "../store/store";
import { newId } from "../words/uuid";
import { HaulmReckoning } from "./reckoning.svelte";

const now = () => Date.parse("2026-06-02T09:15:00.000Z");

/** A worker that answers at once: to `assess` with the references it holds. */
class Port implements WorkerPort {
  onmessage: WorkerPort["onmessage"] = null;
  onerror: WorkerPort["onerror"] = null;
  readonly held = new Set<string>();
  asked: string[] = [];
  constructor() {
    queueMicrotask(() => this.say({ started: true }));
  }
  terminate = () => undefined;
  say = (data: unknown) => this.onmessage?.({ data } as MessageEvent);
  postMessage = (question: Question) => {
    this.asked.push(question.act === "ask" ? question.verb : question.act);
    if (question.act === "ask" && question.verb === "worth") return this.#weigh(question.id);
    if (question.act === "upsert") for (const { record } of question.records) this.held.add(record);
    if (question.act === "forget") for (const ref of question.refs) this.held.delete(ref);
    queueMicrotask(() => this.say({ id: question.id, answer: { on: "2026-06-02", findings: [...this.held].sort() } }));
  };
  #weigh(id: number): void {
    const plantings = [...this.held].map((ref) => ({ planting: ref.split("/")[1], gain: 0.5, reasons: [] }));
    queueMicrotask(() => this.say(unweighable ? { id, error: "no scales" } : { id, answer: { on: "2026-06-02", plantings } }));
  }
}

let ports: Port[];
let unweighable = false;
let store: Store;
let reckoning: HaulmReckoning;
let proved = 0;

beforeEach(async () => {
  ports = [];
  proved = 0;
  unweighable = false;
  store = new Store(newId(now()), now);
  await store.agree();
  const almanac = new Almanac(() => ports[ports.push(new Port()) - 1]!);
  reckoning = new HaulmReckoning({ almanac, today: () => "2026-06-02", app: "this one", proved: () => void proved++ });
});
afterEach(async () => {
  reckoning.leave();
  await store.destroy();
});

const held = () => reckoning.assessment?.findings as unknown;
const until = (expected: unknown) => vi.waitFor(() => expect(held()).toEqual(expected), { timeout: 4000, interval: 10 });

describe("the reckoning", () => {
  it("loads what the store holds, then answers", async () => {
    await store.write([{ ref: "planting/a", set: { count: 1 } }, { ref: "planting/b", set: { count: 1 } }]);
    reckoning.enter(store);
    await until(["planting/a", "planting/b"]);
    await vi.waitFor(() => expect(reckoning.busy).toBe(false));
    expect([reckoning.on, proved]).toEqual(["2026-06-02", 1]);
  });

  it("follows what is written, and what is taken back", async () => {
    reckoning.enter(store);
    await until([]);
    const written = await store.write([{ ref: "planting/a", set: { count: 1 } }]);
    await until(["planting/a"]);
    await store.takeBack(written);
    await until([]);
    expect(proved).toBe(1);
  });

  it("answers a burst of entries once", async () => {
    reckoning.enter(store);
    await until([]);
    const before = ports[0]!.asked.filter((verb) => verb === "assess").length;
    for (let i = 0; i < 10; i++) await store.write([{ ref: `observation/${i}`, set: { count: 1 } }]);
    await vi.waitFor(() => expect((held() as string[]).length).toBe(10), { timeout: 4000 });
    expect(ports[0]!.asked.filter((verb) => verb === "assess").length - before).toBe(1);
  });

  it("shows the last time's answer at once, to the app that got it alone", async () => {
    const almanac = new Almanac(() => ports[ports.push(new Port()) - 1]!);
    const later = (app: string) => new HaulmReckoning({ almanac, today: () => "2026-06-03", app, proved: () => undefined });
    await store.write([{ ref: "planting/a", set: { count: 1 } }]);
    reckoning.enter(store);
    await until(["planting/a"]);
    await vi.waitFor(async () => expect((await store.meta("assessed"))?.worth).toBeDefined(), { timeout: 4000 });
    const [same, other] = [later("this one"), later("another")];
    await Promise.all([same.recall(store), other.recall(store)]);
    expect([same.on, same.assessment?.findings, other.assessment]).toEqual(["2026-06-02", ["planting/a"], null]);
    expect([same.worth?.get("a")?.gain, other.worth]).toEqual([0.5, null]);
  });

  it("is behind from a writing until an answer knows of it", async () => {
    reckoning.enter(store);
    await vi.waitFor(() => expect(reckoning.on).toBe("2026-06-02"), { timeout: 4000 });
    expect(reckoning.behind).toBe(false);
    await store.write([{ ref: "planting/b", set: { count: 1 } }]);
    expect(reckoning.behind).toBe(true);
    await vi.waitFor(() => expect(reckoning.behind).toBe(false), { timeout: 6000 });
    expect(held()).toContain("planting/b");
  });

  it("tells what each look is worth after the assessment, by planting", async () => {
    await store.write([{ ref: "planting/a", set: { count: 1 } }]);
    expect(reckoning.worth).toBeNull();
    reckoning.enter(store);
    await vi.waitFor(() => expect(reckoning.worth?.get("a")?.gain).toBe(0.5));
    expect(ports[0]!.asked.slice(-2)).toEqual(["assess", "worth"]);
    await store.write([{ ref: "planting/b", set: { count: 1 } }]);
    await vi.waitFor(() => expect([...reckoning.worth!.keys()].sort()).toEqual(["a", "b"]), { timeout: 4000 });
    reckoning.leave();
    expect(reckoning.worth).toBeNull();
  });

  it("keeps the assessment where the worth of looks cannot be told", async () => {
    unweighable = true;
    await store.write([{ ref: "planting/a", set: { count: 1 } }]);
    reckoning.enter(store);
    await vi.waitFor(() => expect(ports[0]?.asked.at(-1)).toBe("worth"));
    await until(["planting/a"]);
    await vi.waitFor(() => expect(reckoning.busy).toBe(false));
    expect([reckoning.worth, reckoning.trouble]).toEqual([null, null]);
    unweighable = false;
    await store.write([{ ref: "planting/b", set: { count: 1 } }]);
    await vi.waitFor(() => expect(reckoning.worth?.size).toBe(2), { timeout: 4000 });
  });

  it("says nothing of a garden that was not fetched whole yet", async () => {
    const fresh = new Store(newId(now()), now);
    reckoning.enter(fresh);
    await fresh.write([{ ref: "planting/a", set: { count: 1 } }]);
    await new Promise((resolve) => setTimeout(resolve, 700));
    expect([reckoning.assessment, reckoning.trouble, ports.length]).toEqual([null, null, 0]);
    await fresh.agree();
    await until(["planting/a"]);
    await fresh.destroy();
  });

  it("keeps the last answer when the worker is lost, says so, and loads all again", async () => {
    await store.write([{ ref: "planting/a", set: { count: 1 } }]);
    reckoning.enter(store);
    await until(["planting/a"]);
    ports[0]!.onerror?.({ message: "out of memory" } as ErrorEvent);
    ports[0]!.say = () => undefined;
    await store.write([{ ref: "planting/b", set: { count: 1 } }]);
    await until(["planting/a", "planting/b"]);
    expect([ports.length, reckoning.trouble]).toEqual([2, null]);
  });
});
