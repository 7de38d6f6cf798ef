import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { keepAlmanac, renewAlmanac, serveAlmanac } from "./almanac-cache";

const entry = (revision: string) => ({ url: "almanac.wasm", revision });
const request = new Request("https://garden.test/almanac.wasm");

let held: Map<string, Response>;
let fetched: string[];
let answer: () => Response;

beforeEach(() => {
  [held, fetched] = [new Map(), []];
  answer = () => new Response("wasm");
  const key = (of: string | Request) => new URL(typeof of === "string" ? of : of.url, "https://garden.test").href;
  vi.stubGlobal("location", { origin: "https://garden.test" });
  vi.stubGlobal("fetch", async (of: string) => (fetched.push(of), answer()));
  vi.stubGlobal("caches", {
    open: async () => ({
      match: async (of: string) => held.get(key(of))?.clone(),
      put: async (of: string, response: Response) => void held.set(key(of), response),
      keys: async () => [...held.keys()].map((url) => new Request(url)),
      delete: async (of: Request) => held.delete(key(of)),
    }),
  });
});
afterEach(() => vi.unstubAllGlobals());

const revisions = () => [...held.keys()].map((url) => new URL(url).searchParams.get("revision"));

describe("the almanac's cache", () => {
  it("keeps the almanac of this version once, and drops earlier ones", async () => {
    await keepAlmanac(entry("one"));
    await keepAlmanac(entry("one"));
    await keepAlmanac(entry("two"));
    expect([revisions(), fetched.length]).toEqual([["two"], 2]);
  });

  it("serves it with no network", async () => {
    await keepAlmanac(entry("one"));
    answer = () => {
      throw new TypeError("network error");
    };
    expect(await (await serveAlmanac(request, entry("one"))).text()).toBe("wasm");
  });

  it("keeps what it fetched to serve", async () => {
    await serveAlmanac(request, entry("one"));
    expect(revisions()).toEqual(["one"]);
  });

  it("never keeps a refusal", async () => {
    answer = () => new Response("no", { status: 502 });
    expect((await serveAlmanac(request, entry("one"))).status).toBe(502);
    expect(revisions()).toEqual([]);
  });

  it("fetches the new one along with an update where there was one, and leaves the old for the pages that use it", async () => {
    await renewAlmanac(entry("one"));
    expect(revisions()).toEqual([]);
    await keepAlmanac(entry("one"));
    await renewAlmanac(entry("two"));
    expect(revisions()).toEqual(["one", "two"]);
  });
});
