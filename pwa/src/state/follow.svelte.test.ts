import { flushSync } from "svelte";
import { expect, it, vi } from "vitest";
import type { Garden } from "../words/records";
import type { Book } from "./contract";
import { afterFirstScreen, followDate, followGarden } from "./follow.svelte";

it("reckons anew when the date changes, and only then", () => {
  let today = $state("2026-06-02");
  let busy = $state(false);
  const reckoned: string[] = [];
  const refresh = () => {
    busy = !busy; // as the reckoning does, whose state the page shows
    reckoned.push(today);
  };
  followDate({ get ready() { return true; }, get today() { return today; } } as Book, { refresh });
  flushSync();
  today = "2026-06-03";
  flushSync();
  expect(reckoned).toEqual(["2026-06-02", "2026-06-03"]);
});

it("remembers the garden's record once it is read, and each time it is other than before", () => {
  let ready = $state(false);
  let garden = $state.raw({ name: "Quince Yard" } as Garden);
  const remembered: string[] = [];
  const book = { get ready() { return ready; }, get garden() { return garden; }, remember: ({ name }: Garden) => void remembered.push(name!) };
  followGarden(book as unknown as Parameters<typeof followGarden>[0]);
  flushSync();
  expect(remembered).toEqual([]);
  ready = true;
  flushSync();
  garden = { name: "Plum Yard" } as Garden;
  flushSync();
  expect(remembered).toEqual(["Quince Yard", "Plum Yard"]);
});

it.each([{ ready: true, trouble: null }, { ready: false, trouble: { code: "store-failed" } }])("begins what comes after the first screen with %j", async (book) => {
  vi.stubGlobal("requestAnimationFrame", (draw: () => void) => setTimeout(draw));
  await new Promise<void>((resolve) => {
    afterFirstScreen(book as Book, resolve);
    flushSync();
  });
});
