import { expect, it } from "vitest";
import { Install } from "./install.svelte";

function offerOn(page: EventTarget): { asked: number; event: Event } {
  const told = { asked: 0, event: new Event("beforeinstallprompt", { cancelable: true }) };
  Object.assign(told.event, { prompt: async () => void told.asked++ });
  page.dispatchEvent(told.event);
  return told;
}

it("holds the browser's offer back until the person asks for it, once", async () => {
  const page = new EventTarget();
  const install = new Install(page as unknown as Window);
  expect(install.offered).toBe(false);
  const offer = offerOn(page);
  expect([install.offered, offer.event.defaultPrevented, offer.asked]).toEqual([true, true, 0]);
  await Promise.all([install.ask(), install.ask()]);
  expect([install.offered, offer.asked]).toEqual([false, 1]);
});

it("offers nothing any more once it is there", () => {
  const page = new EventTarget();
  const install = new Install(page as unknown as Window);
  offerOn(page);
  page.dispatchEvent(new Event("appinstalled"));
  expect(install.offered).toBe(false);
});
