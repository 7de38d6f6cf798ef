import { beforeEach, describe, expect, it, vi } from "vitest";
import type { Act } from "../state/contract";
import type { ISOInstant } from "../words/ids";
import { TroubleError } from "../words/trouble";
import { Passed } from "./passed.svelte";
import { Saved } from "./saved.svelte";
import { Voice } from "./voice.svelte";

let undone: string[];
let stuck: string;

/** Taken back, unless the phone has no room for that. */
const act = (name: string): Act => ({
  ref: `planting/${name}`, at: `2026-06-02T09:15:0${name}Z` as ISOInstant, undone: false,
  undo: async () => {
    if (name === stuck) throw new TroubleError("no-room");
    undone.push(name);
  },
});

beforeEach(() => ([undone, stuck] = [[], ""]));

describe("what a row saved", () => {
  it("stays to be taken back where that fails, and what came after it does not return", async () => {
    const saved = new Saved(new Voice());
    for (const name of ["1", "2", "3"]) await saved.keep(Promise.resolve(act(name)));
    stuck = "2";
    await saved.undo(true);
    expect([undone, saved.at, saved.failed !== ""]).toEqual([["3"], act("2").at, true]);
    stuck = "";
    saved.again!();
    await vi.waitFor(() => expect([undone, saved.at, saved.failed]).toEqual([["3", "2", "1"], null, ""]));
  });

  it("offers to try again what it was given a way for", async () => {
    const saved = new Saved(new Voice());
    await saved.keep(Promise.reject(new TroubleError("no-room")));
    expect([saved.failed !== "", saved.again]).toEqual([true, null]);
    let tries = 0;
    await saved.keep(Promise.reject(new TroubleError("no-room")), () => tries++);
    saved.again!();
    expect(tries).toBe(1);
  });
});

describe("what was done on the screen just left", () => {
  it("stays to be taken back where that fails, and says so", async () => {
    const passed = new Passed();
    passed.tell("Planted", act("1"), "iris", "/plants");
    stuck = "1";
    expect([await passed.undo(), passed.failed !== "", passed.words("iris"), passed.back]).toEqual([false, true, "Planted", "/plants"]);
    stuck = "";
    expect([await passed.undo(), passed.failed, passed.words("iris")]).toEqual([true, "", ""]);
  });

  it("is not what was done before, where the last thing could not be kept", async () => {
    const passed = new Passed();
    await passed.keep("Iris", Promise.resolve(act("1")));
    await passed.keep("Salvia", Promise.reject(new TroubleError("no-room")));
    expect([passed.failed !== "", passed.words(null)]).toEqual([true, ""]);
  });
});
