import { expect, it } from "vitest";
import type { Book, Photographed } from "../state/contract";
import { TroubleError } from "../words/trouble";
import { keepSnaps, Snaps, type SnapProgress } from "./snaps.svelte";

it("keeps what can be kept, and names each file that was not, with its own reason", async () => {
  const troubles: Readonly<Record<string, "unreadable-picture" | "no-room">> = { "list.pdf": "unreadable-picture", "three.jpg": "no-room" };
  const photograph = async (file: File) => {
    const code = troubles[file.name];
    if (code) throw new TroubleError(code);
    return { observation: file.name };
  };
  const far: SnapProgress[] = [];
  const files = ["one.jpg", "list.pdf", "three.jpg", "four.jpg"].map((name) => new File([], name));
  const { kept, failures } = await keepSnaps({ photograph } as unknown as Book, files, {}, (now) => far.push(now));
  expect(kept.map(({ observation }) => observation)).toEqual(["one.jpg", "four.jpg"]);
  expect(failures.map(({ file }) => file)).toEqual(["list.pdf", "three.jpg"]);
  expect(failures[0]!.why).not.toBe(failures[1]!.why);
  expect(far.at(-1)).toEqual({ at: 4, of: 4 });
});

it("knows of which entries a picture is still being read", async () => {
  const snaps = new Snaps();
  let read = (): void => undefined;
  const settled = new Promise<void>((resolve) => (read = resolve));
  snaps.follow([{ observation: "a", settled }] as unknown as readonly Photographed[]);
  expect([snaps.reading("a"), snaps.reading("b")]).toEqual([true, false]);
  read();
  await settled;
  expect(snaps.reading("a")).toBe(false);
});

it("tells what was not kept on the screen of that batch alone", () => {
  const snaps = new Snaps();
  snaps.tell("/photos?of=a", [{ file: "list.pdf", why: "no picture" }]);
  expect([snaps.failures("/photos?of=a").length, snaps.failures("/photos?of=b")]).toEqual([1, []]);
});
