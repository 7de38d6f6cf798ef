import { flushSync } from "svelte";
import { expect, it } from "vitest";
import type { Book } from "./contract";
import { followDate } from "./follow.svelte";

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
