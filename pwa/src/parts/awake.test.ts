import { expect, it, vi } from "vitest";
import { keepAwake } from "./awake";

const settled = () => new Promise((resolve) => setTimeout(resolve));

/** A page that can go out of sight, and a screen that counts the locks on it. */
function phone() {
  const sight = Object.assign(new EventTarget(), { visibilityState: "visible" as DocumentVisibilityState });
  const locks = new Set<object>();
  const request = vi.fn(async () => {
    const lock = { release: async () => void locks.delete(lock) };
    locks.add(lock);
    return lock as unknown as WakeLockSentinel;
  });
  const show = async (visibilityState: DocumentVisibilityState) => {
    if (visibilityState === "hidden") locks.clear(); // as the phone does
    Object.assign(sight, { visibilityState });
    sight.dispatchEvent(new Event("visibilitychange"));
    await settled();
  };
  return { sight: sight as unknown as Document, screen: { request }, locks, show };
}

it("keeps the screen on until it is left", async () => {
  const { sight, screen, locks } = phone();
  const leave = keepAwake(screen, sight);
  await settled();
  expect(locks.size).toBe(1);
  leave();
  await settled();
  expect(locks.size).toBe(0);
});

it("asks again when the page shows again, and not while it is out of sight or left", async () => {
  const { sight, screen, locks, show } = phone();
  const leave = keepAwake(screen, sight);
  await show("hidden");
  expect([screen.request.mock.calls.length, locks.size]).toEqual([1, 0]);
  await show("visible");
  expect([screen.request.mock.calls.length, locks.size]).toEqual([2, 1]);
  leave();
  await show("hidden");
  await show("visible");
  expect([screen.request.mock.calls.length, locks.size]).toEqual([2, 0]);
});

it("holds nothing that is given after it was left", async () => {
  const { sight, screen, locks } = phone();
  keepAwake(screen, sight)();
  await settled();
  expect([screen.request.mock.calls.length, locks.size]).toEqual([1, 0]);
});

it("says nothing where the browser has none or the phone refuses", async () => {
  const { sight } = phone();
  keepAwake(null, sight)();
  keepAwake({ request: () => Promise.reject(new DOMException("low battery", "NotAllowedError")) }, sight)();
  await settled();
});
