import { describe, expect, it } from "vitest";
import { writerName } from "./writer";

const ash = "01a20ffc-ef20-79dd-9239-bee5c1e4dc4c";
const me = { member: "01a20ffc-0000-79dd-9239-bee5c1e4dc4c" };

describe("writerName", () => {
  it("is the name that the household gives", () => expect(writerName(ash, me, () => "Ash")).toBe("Ash"));
  it("is never an id", () => expect(writerName(ash, me, () => null)).toBe(""));
  it("is a name that was written as one", () => expect(writerName("Maren", me)).toBe("Maren"));
  it("is not said of oneself", () => expect(writerName(me.member, me, () => "Wren")).toBe(""));
});
