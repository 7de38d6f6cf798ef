import { describe, expect, it } from "vitest";
import { sizeWords, troubleWords, waitingLine } from "./sending-words";

const nothing = { notes: 0, photos: 0, line: "resting", refused: [] } as const;

describe("the quiet line", () => {
  it("is silent when nothing waits", () => expect(waitingLine(nothing)).toBeNull());
  it("counts what waits for a signal", () =>
    expect(waitingLine({ ...nothing, notes: 3, photos: 2, line: "offline" })).toBe("3 notes and 2 photos wait for a signal"));
  it("says one as one", () => expect(waitingLine({ ...nothing, notes: 1, line: "offline" })).toBe("1 note waits for a signal"));
  it("says why originals wait", () => expect(waitingLine({ ...nothing, photos: 2, line: "held" })).toMatch(/unmetered/u));
  it("puts what was refused first", () => {
    const refused = [{ change: "c", ref: "observation/o" as const, fields: {}, code: "invalid_stage", why: "stage 140 is outside 0 to 99", at: "" }];
    expect(waitingLine({ ...nothing, notes: 3, line: "offline", refused })).toBe("1 entry was not taken: mend it");
  });
});

describe("what went wrong", () => {
  it("adds the server's own sentence", () =>
    expect(troubleWords({ code: "not-allowed", detail: "a viewer cannot write" })).toContain("a viewer cannot write"));
});

it.each([[300, "1 kB"], [420_300, "420 kB"], [3_640_000, "3.6 MB"], [999_900_000, "999.9 MB"], [10_746_200_000, "11 GB"]])("%d bytes are %s", (bytes, words) =>
  expect(sizeWords(bytes, "en-GB")).toBe(words));
