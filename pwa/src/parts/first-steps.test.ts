import { describe, expect, it } from "vitest";
import type { Bed, Garden, Planting } from "../words/records";
import type { Haulm } from "../state/contract";
import { firstSteps, stepsLeft } from "./first-steps";

type Facts = Readonly<{ lat?: number; beds?: readonly Partial<Bed>[]; plantings?: number; looked?: number }>;

function book({ lat, beds = [], plantings = 0, looked = 0 }: Facts) {
  return {
    garden: { id: "g", ...(lat === undefined ? {} : { lat }) } as unknown as Garden,
    beds: beds as readonly Bed[],
    plantings: Array.from({ length: plantings }, (_, at) => ({ id: String(at) }) as Planting),
    lastLook: (id: string) => (Number(id) < looked ? "2026-06-02T09:15:00+01:00" : null),
  };
}

const done = (facts: Facts) => firstSteps(book(facts)).map((step) => step.done);
const bed = { outline: [[0, 0], [4, 0], [4, 2]], soil: "loam" } as const;

describe("the first steps", () => {
  it("are all to do in an empty garden", () => expect(done({})).toEqual([false, false, false, false]));
  it("are each done by what the records say", () => {
    expect(done({ lat: 0 })).toEqual([true, false, false, false]);
    expect(done({ beds: [{ soil: bed.soil }] })).toEqual([false, false, false, false]);
    expect(done({ beds: [{}, bed] })).toEqual([false, true, false, false]);
    expect(done({ plantings: 3, looked: 2 })).toEqual([false, false, true, false]);
    expect(done({ plantings: 3, looked: 3 })).toEqual([false, false, true, true]);
  });
  it("say how far the counted ones are", () => {
    const [, , plantings, round] = firstSteps(book({ plantings: 5, looked: 1 }));
    expect([plantings!.words, round!.words].map((words) => /\d of \d/u.exec(words)?.[0])).toEqual(["3 of 3", "1 of 3"]);
  });

  const left = (facts: Facts, role = "keeper", cursor = "1.5") =>
    stepsLeft({ book: { ...book(facts), complete: true }, session: { role }, sending: { cursor } } as unknown as Haulm);

  it("are over once all are done, and never begin in a garden that has many plantings", () => {
    expect(left({})).toHaveLength(4);
    expect(left({ lat: 52, beds: [bed], plantings: 4, looked: 3 })).toBeNull();
    expect(left({ plantings: 9 })).toHaveLength(4);
    expect(left({ plantings: 10 })).toBeNull();
  });
  it("are the keeper's, once the garden is on the phone", () => {
    expect([left({}, "helper"), left({}, "viewer"), left({}, "keeper", "")]).toEqual([null, null, null]);
  });
});
