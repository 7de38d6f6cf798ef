import { afterEach, expect, it, vi } from "vitest";
import { film, whyNoCamera } from "./camera";
import { reader } from "./reader";

afterEach(() => {
  vi.unstubAllGlobals();
});

it("is fetched anew after it could not be, which is told as that, and opens no camera meanwhile", async () => {
  const getUserMedia = vi.fn();
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia } });
  vi.doMock("jsqr", () => {
    throw new Error("no network");
  });
  const why = await film({} as HTMLVideoElement, () => undefined).then(() => null, whyNoCamera);
  expect([why, getUserMedia.mock.calls]).toEqual(["no-reader", []]);
  vi.doUnmock("jsqr");
  await expect(reader()).resolves.toBeTypeOf("function");
});
