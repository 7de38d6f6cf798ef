import { expect, it } from "vitest";
import { TroubleError } from "../words/trouble";
import { Asked } from "./asked.svelte";

it("is busy until it is done, and says why it failed until it is asked for again", async () => {
  const asked = new Asked();
  const failing = asked.for(() => Promise.reject(new TroubleError("no-room")));
  expect(asked.busy).toBe(true);
  await failing;
  expect([asked.busy, asked.failed]).toEqual([false, expect.stringContaining("no room")]);
  await asked.for(async () => undefined);
  expect([asked.busy, asked.failed]).toEqual([false, ""]);
});
