import type { Component } from "svelte";
import { afterEach, describe, expect, it, vi } from "vitest";
import { placeOf } from "../routes/paths";
import { Fetched, fetchWhenIdle } from "./held.svelte";
import { screens } from "./screens.svelte";

const component = (() => ({})) as unknown as Component<{ id: string }>;
const place = placeOf(new URL("https://haulm.test/planting/p1"));

afterEach(() => vi.unstubAllGlobals());

describe("a screen that is fetched", () => {
  it("is shown with what its address says, and is fetched once", async () => {
    const get = vi.fn(async () => ({ default: component }));
    const screen = new Fetched(get, ({ id }) => ({ id }));
    expect(screen.shown).toBeNull();
    await Promise.all([screen.fetch(), screen.fetch()]);
    expect(screen.shown?.component).toBe(component);
    expect(screen.shown?.fill(place)).toEqual({ id: "p1" });
    expect(get).toHaveBeenCalledTimes(1);
  });

  it("says that it failed, and can be asked again", async () => {
    const get = vi.fn(async () => ({ default: component })).mockRejectedValueOnce(new TypeError("out of reach"));
    const screen = new Fetched(get, () => ({ id: "" }));
    await screen.fetch();
    expect([screen.failed, screen.shown]).toEqual([true, null]);
    await screen.fetch();
    expect([screen.failed, screen.shown?.component]).toEqual([false, component]);
  });
});

describe("fetching when idle", () => {
  it("waits for idle time, then fetches all, those after a failed one too", async () => {
    let idle = () => {};
    vi.stubGlobal("requestIdleCallback", (act: () => void) => ((idle = act), 1));
    const broken = new Fetched<{ id: string }>(() => Promise.reject(new TypeError()), () => ({ id: "" }));
    const whole = new Fetched(async () => ({ default: component }), () => ({ id: "" }));
    fetchWhenIdle([broken, whole]);
    await Promise.resolve();
    expect([broken.failed, whole.shown]).toEqual([false, null]);
    idle();
    await vi.waitFor(() => expect(whole.shown).not.toBeNull());
    expect(broken.failed).toBe(true);
  });
});

it("what the bed needs is there without fetching", () => {
  const here = Object.entries(screens).filter(([, screen]) => screen.shown !== null).map(([name]) => name);
  expect(here.sort()).toEqual(["entry", "lost", "round", "stop", "today"]);
});
