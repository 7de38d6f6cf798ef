import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { endingOf, kindOfFile } from "./media";

type Sample = Readonly<{ what: string; hex: string; type: string | null }>;

const { samples } = JSON.parse(readFileSync(join(import.meta.dirname, "../../../testdata/media/beginnings.json"), "utf8")) as { samples: Sample[] };
const bytes = (hex: string): ArrayBuffer => new Uint8Array(Buffer.from(hex, "hex")).buffer;

// The server's test of the same name reads the same list.
describe("what the phone keeps is what the server takes", () => {
  it.each(samples)("$what: $type", ({ hex, type }) => expect(kindOfFile(bytes(hex))).toBe(type));
});

it.each([["image/jpeg", "jpg"], ["image/heic", "heic"], ["audio/webm;codecs=opus", "webm"], ["text/html", "bin"]])("a file of type %s ends in %s", (type, ending) => expect(endingOf(type)).toBe(ending));
