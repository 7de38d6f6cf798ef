import { expect, it } from "vitest";
import { PhotoAddress } from "./photo-address.svelte";

/** An address that finds each of these in turn, and the last from then on. */
function finding(...found: (string | null | Error)[]): PhotoAddress {
  return new PhotoAddress(async () => {
    const next = found.length > 1 ? found.shift()! : found[0]!;
    if (next instanceof Error) throw next;
    return next;
  });
}

it("shows what is found, and says whether there is any", async () => {
  const [one, none] = [finding("blob:a"), finding(null)];
  expect(one.asked).toBe(false);
  await Promise.all([one.find(), none.find()]);
  expect([one.url, one.here, one.asked, none.url, none.here, none.asked]).toEqual(["blob:a", true, true, null, false, true]);
});

it("asks for a fresh address when the one it has was let go", async () => {
  const address = finding("blob:gone", "blob:fresh");
  await address.find();
  await address.failed();
  expect(address.url).toBe("blob:fresh");
});

it.each([["the same address", ["blob:a"]], ["another that cannot be read either", ["blob:a", "blob:b", "blob:c"]], ["none", ["blob:a", null]]])("cannot be shown where %s is found again", async (_, found) => {
  const address = finding(...found);
  await address.find();
  await address.failed();
  await address.failed();
  expect([address.url, address.here]).toEqual([null, true]);
});

it("shows a better picture that came after one that cannot be read", async () => {
  const address = finding("blob:a", "blob:a", "blob:b");
  await address.find();
  await address.failed();
  await address.find();
  expect(address.url).toBe("blob:b");
});

it("keeps what it shows when asking fails, and says that it asked", async () => {
  const [shown, none] = [finding("blob:a", new Error("no disk")), finding(new Error("no disk"))];
  await shown.find();
  await Promise.all([shown.find(), none.find()]);
  expect([shown.url, none.url, none.asked]).toEqual(["blob:a", null, true]);
});
