import { describe, expect, it } from "vitest";
import { patienceFor } from "./http";
import { pieceBytes } from "./pictures";

describe("patience", () => {
  it("lets a piece through a link of 64 kbit/s", () => {
    const secondsNeeded = (pieceBytes * 8) / 64_000;
    expect(patienceFor(pieceBytes) / 1000).toBeGreaterThan(secondsNeeded);
  });

  it("gives a silent server half a minute", () => expect(patienceFor(0)).toBe(30_000));
});
