import { expect, it, vi } from "vitest";
import { steady } from "./steady";

it("takes one tap of two that follow closely, and the next after a pause", () => {
  let clock = 0;
  const handle = vi.fn();
  const tap = steady(handle, () => clock);
  const tapAt = (ms: number): void => {
    clock = ms;
    tap();
  };
  tapAt(100); // the finger that opened the screen is still bouncing
  expect(handle).toHaveBeenCalledTimes(0);
  tapAt(1000);
  tapAt(1200);
  expect(handle).toHaveBeenCalledTimes(1);
  tapAt(2000);
  expect(handle).toHaveBeenCalledTimes(2);
});
