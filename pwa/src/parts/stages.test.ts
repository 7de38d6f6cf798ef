import { describe, expect, it } from "vitest";
import { stageOf, stages } from "./stages";

describe("stages", () => {
  it("come back as the word they were logged with", () => {
    for (const { stage, bbch } of stages) expect(stageOf(bbch)).toBe(stage);
  });
  it.each([[49, null], [51, "bud"], [60, "first"], [64, "full"], [69, "over"], [70, "seed"], [undefined, null]] as const)("reads %s as %s", (bbch, stage) =>
    expect(stageOf(bbch)).toBe(stage));
});
