import { beforeEach, expect, it, vi } from "vitest";
import type { Act } from "../state/contract";
import { TroubleError } from "../words/trouble";
import { Saved } from "./saved.svelte";
import { Holding, type Said, Unkept } from "./unkept.svelte";
import { Voice } from "./voice.svelte";

let room: boolean;
let stored: string[];
let saved: Saved;
let unkept: Unkept;
let row: Holding;

const said = (text: string): Said => ({
  what: "Note", text, garden: "g",
  store: async () => {
    await Promise.resolve();
    if (!room) throw new TroubleError("no-room");
    stored.push(text);
    return { at: "2026-06-02T09:15:00Z" } as unknown as Act;
  },
});
const told = () => unkept.of("g").map(({ said: { text } }) => text);

beforeEach(() => {
  [room, stored, saved, unkept] = [false, [], new Saved(new Voice()), new Unkept()];
  row = new Holding(saved, unkept);
});

it("holds what could not be stored and stores it when that is tried again", async () => {
  expect([await row.keep(said("buds")), saved.failed !== "", told()]).toEqual([false, true, []]);
  room = true;
  saved.again!();
  await vi.waitFor(() => expect([stored, saved.failed]).toEqual([["buds"], ""]));
  row.leave();
  expect(told()).toEqual([]);
});

it("stores what waited as soon as something is stored again", async () => {
  await row.keep(said("first"));
  room = true;
  expect(await row.keep(said("second"))).toBe(true);
  await vi.waitFor(() => expect(stored).toEqual(["second", "first"]));
});

it("forgets what newer words stand for", async () => {
  await row.keep(said("bud"));
  row.drop();
  await row.keep(said("buds"));
  row.leave();
  expect(told()).toEqual(["buds"]);
});

it("tells on later screens of what failed before or after its row was left, until it is stored or given up", async () => {
  await row.keep(said("before"));
  const late = row.keep(said("after"));
  row.leave();
  await late;
  expect([told(), unkept.of("another")]).toEqual([["before", "after"], []]);
  const [before, after] = unkept.of("g");
  expect([await unkept.again(before!), told()]).toEqual([false, ["before", "after"]]);
  room = true;
  expect([await unkept.again(before!), stored, told()]).toEqual([true, ["before"], ["after"]]);
  unkept.drop(after!.said);
  expect(told()).toEqual([]);
});
