import { describe, expect, it } from "vitest";
import type { RoundKept } from "../state/contract";
import type { Bed, Planting } from "../words/records";
import { bedsOnRound, goOnAt } from "./round";
import { stopsOf, type Stop } from "./walk";

const planting = (id: string, bed: string): Planting => ({ id, ref: `planting/${id}`, bed });
const bed = (id: string | undefined): Bed => ({ id: id!, ref: `bed/${id!}`, name: id! });
const stops = stopsOf([planting("a", "wall"), planting("b", "wall"), planting("c", "pond"), planting("d", "pond")], bed);
const ids = (some: readonly Stop[]): string => some.map((stop) => stop.planting.id).join("");

it("parts each bed into what is asked for and the rest, in walking order", () =>
  expect(bedsOnRound(stops, new Set(["d", "b"])).map(({ bed, asked, rest }) => [bed?.name, ids(asked), ids(rest)])).toEqual([["wall", "b", "a"], ["pond", "d", "c"]]));

describe("a round that was left", () => {
  const left = (at: string): RoundKept => ({ at, askedOnly: false, asked: [] });
  const goOn = (at: string, done: string): string | undefined => goOnAt(stops, left(at), ({ planting: { id } }) => !done.includes(id))?.planting.id;

  it("goes on where it stood, when that is not done", () => expect(goOn("b", "a")).toBe("b"));
  it("goes on after it, when that is done", () => expect(goOn("b", "bc")).toBe("d"));
  it("comes back to what was passed, at the end", () => expect(goOn("d", "bcd")).toBe("a"));
  it("begins anew where it stood at what is no longer there", () => expect(goOn("gone", "a")).toBe("b"));
  it("is over when all is done", () => expect(goOn("b", "abcd")).toBeUndefined());
});
