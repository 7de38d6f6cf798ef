import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Store } from "../store/store";
import { bytesKey, type HeldPhoto } from "../store/held";
import type { Sha256 } from "../words/ids";
import { newId } from "../words/uuid";
import { FakeServer } from "./fake-server";
import { Line } from "./line";
import { Server } from "./server";

const now = () => Date.parse("2026-06-02T09:15:00.000Z");

/** An event stream that speaks when told to. */
class Stream extends EventTarget {
  static open: Stream[] = [];
  static readonly CLOSED = 2;
  readyState = 1;
  onopen: (() => void) | null = null;
  onerror: (() => void) | null = null;
  constructor(readonly address: string) {
    super();
    Stream.open.push(this);
  }
  close = () => (this.readyState = 2);
  moved = (cursor: string) => this.dispatchEvent(Object.assign(new Event("cursor"), { data: cursor }));
}

/** Web Locks for one lock: who asks first holds it until their work is over. */
function locks() {
  let tail: Promise<unknown> = Promise.resolve();
  return {
    request: (_name: string, { signal }: { signal: AbortSignal }, work: () => Promise<void>) =>
      (tail = tail.then(() => (signal.aborted ? undefined : work()))),
  };
}

let fake: FakeServer;
let garden: string;
let link: EventTarget;
let tabs: { store: Store; line: Line }[];

beforeEach(() => {
  fake = new FakeServer();
  garden = newId(now());
  [tabs, Stream.open] = [[], []];
  vi.stubGlobal("EventSource", Stream);
  link = new EventTarget();
  vi.stubGlobal("navigator", { locks: locks(), connection: link });
  vi.stubGlobal("document", Object.assign(new EventTarget(), { visibilityState: "visible" }));
  const page = new EventTarget();
  vi.stubGlobal("addEventListener", page.addEventListener.bind(page));
  vi.stubGlobal("dispatchEvent", page.dispatchEvent.bind(page));
});
afterEach(async () => {
  for (const { line, store } of tabs) {
    line.end();
    await line.wake();
    store.close();
  }
  vi.unstubAllGlobals();
});

function tab(): Store {
  const store = new Store(garden, now);
  const line = new Line(store, new Server("g", fake.fetch, now), now, () => 0);
  tabs.push({ store, line });
  line.start();
  return store;
}

/** A picture that waits with its entry. */
async function photographed(store: Store): Promise<void> {
  const sha = "a".repeat(64) as Sha256;
  const photo: HeldPhoto = {
    sha, ref: "observation/a", type: "image/jpeg", size: 2, made: "2026-06-02T09:15:00+00:00", previews: [320], sentPreviews: [], sent: 0, done: 0,
  };
  const bytes = [{ key: bytesKey(sha, 320), type: "image/jpeg", bytes: new Uint8Array([1, 2]).buffer }];
  await store.write([{ ref: "observation/a", set: { photos: [sha] } }], [{ photo, bytes }]);
}

const soon = (check: () => unknown) => vi.waitFor(check, { timeout: 3000, interval: 5 });
const atServer = (...refs: string[]) => soon(() => expect([...fake.records.keys()].sort()).toEqual(refs));
const syncs = () => fake.requests.filter((request) => request.endsWith("/sync")).length;

describe("the line", () => {
  it("sends when it starts, and after each save", async () => {
    const store = tab();
    await store.write([{ ref: "planting/a", set: { count: 1 } }]);
    await atServer("planting/a");
    await store.write([{ ref: "planting/b", set: { count: 1 } }]);
    await atServer("planting/a", "planting/b");
  });

  it("is held by one tab, which sends what another saves and tells it", async () => {
    tab();
    const second = tab();
    const told: string[] = [];
    second.listen(({ line }) => line && told.push(line.state));
    await second.write([{ ref: "planting/a", set: { count: 1 } }]);
    await atServer("planting/a");
    await soon(() => expect(told).toContain("resting"));
    expect(Stream.open.length).toBe(1);
  });

  it("passes to the next tab when the first closes", async () => {
    tab();
    const second = tab();
    await soon(() => expect(Stream.open.length).toBe(1));
    tabs[0]!.line.end();
    await soon(() => expect(Stream.open.length).toBe(2));
    await second.write([{ ref: "planting/a", set: { count: 1 } }]);
    await atServer("planting/a");
  });

  it("fetches when the server's feed moves, and not when it says what is known", async () => {
    const store = tab();
    await soon(async () => expect(await store.meta("agreed")).toBeDefined());
    fake.put("bed/a", { order: 1 });
    Stream.open[0]!.moved("a.1");
    await soon(async () => expect((await store.shown(["bed/a"]))[0]).not.toBeNull());
    await soon(async () => expect(await store.meta("cursor")).toBe("a.1"));
    const before = syncs();
    Stream.open[0]!.moved("a.1");
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(syncs()).toBe(before);
  });

  it.each([
    ["the network comes back", () => dispatchEvent(new Event("online"))],
    ["the page comes into view", () => document.dispatchEvent(new Event("visibilitychange"))],
  ])("tries at once when %s", async (_, happen) => {
    fake.interfere = () => "before";
    const store = tab();
    await store.write([{ ref: "planting/a", set: { count: 1 } }]);
    const told: string[] = [];
    store.listen(({ line }) => line && told.push(line.state));
    await soon(() => expect(told.at(-1)).toBe("waiting"));
    fake.interfere = () => null;
    happen();
    await atServer("planting/a");
  });

  it("says that it sends until a try that was asked for is over, whatever went wrong before", async () => {
    fake.interfere = () => "before";
    const store = tab();
    await photographed(store);
    const told: string[] = [];
    store.listen(({ line }) => line && told.push(line.state));
    await soon(() => expect(told.at(-1)).toBe("waiting"));
    fake.interfere = () => null;
    told.length = 0;
    await store.retry();
    await soon(() => expect(fake.previews.size).toBe(1));
    await soon(() => expect(told.at(-1)).toBe("resting"));
    const over = told.findIndex((state) => state !== "sending");
    expect(told.slice(over)).toEqual(told.slice(over).map(() => "resting"));
  });

  it("tries at once when the phone goes over to another link", async () => {
    fake.interfere = () => "before";
    const store = tab();
    await store.write([{ ref: "planting/a", set: { count: 1 } }]);
    await soon(() => expect(syncs()).toBeGreaterThan(0));
    fake.interfere = () => null;
    link.dispatchEvent(new Event("change"));
    await atServer("planting/a");
  });

  it("lets no picture go while what is written cannot", async () => {
    fake.interfere = (request) => (request.url.endsWith("/sync") ? "before" : null);
    const store = tab();
    const told: string[] = [];
    store.listen(({ line }) => line && told.push(line.state));
    await photographed(store);
    await soon(() => expect(told.filter((state) => state === "waiting").length).toBeGreaterThan(2));
    expect(fake.requests.filter((request) => request.includes("/media/"))).toEqual([]);
    fake.interfere = () => null;
    dispatchEvent(new Event("online"));
    await atServer("observation/a");
    await soon(() => expect(fake.previews.size).toBe(1));
    expect(fake.requests.findIndex((request) => request.includes("/media/"))).toBeGreaterThan(fake.requests.findIndex((request) => request.endsWith("/sync")));
  });
});
