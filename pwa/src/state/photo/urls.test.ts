import { expect, it, vi } from "vitest";
import { PhotoUrls, type Preview } from "./urls";

const preview: Preview = { type: "image/jpeg", bytes: new ArrayBuffer(1) };
const many = 200;

it("asks anew for a picture that could not be read", async () => {
  const source = vi.fn<() => Promise<Preview>>().mockRejectedValueOnce(new Error("no disk")).mockResolvedValue(preview);
  const urls = new PhotoUrls(source);
  await expect(urls.get("a", 320)).rejects.toThrow("no disk");
  expect([await urls.get("a", 320), source.mock.calls.length]).toEqual([expect.stringMatching(/^blob:/), 2]);
  urls.clear();
});

it("lets the longest unused go, those that could not be read without a word, and makes each anew when it is asked for", async () => {
  const revoked = vi.spyOn(URL, "revokeObjectURL");
  const urls = new PhotoUrls(async () => preview);
  const first = await urls.get("0", 320);
  for (let i = 1; i <= many; i++) await urls.get(String(i), 320);
  await vi.waitFor(() => expect(revoked.mock.calls).toEqual([[first]]));
  const fresh = await urls.get("0", 320);
  expect(fresh).not.toBe(first);
  expect(await urls.get("0", 320)).toBe(fresh);
  urls.clear();
});
