import { describe, expect, it } from "vitest";
import type { Photo } from "../state/contract";
import { pairOf, pairWith } from "./photo-pair";

const of = (...days: string[]): Photo[] => days.map((day) => ({ sha: day, seen: `${day}T10:00:00+01:00`, observation: day }));
const days = (pair: readonly Photo[] | null) => pair?.map(({ sha }) => sha) ?? null;

describe("two pictures of a plant", () => {
  it.each([
    ["the furthest apart in years at the same time of the year", ["2021-07-01", "2022-05-20", "2023-07-10", "2024-04-01", "2024-07-12", "2025-02-01"], ["2021-07-01", "2024-07-12"]],
    ["over New Year too", ["2023-01-02", "2024-06-01", "2024-12-28"], ["2023-01-02", "2024-12-28"]],
    ["the newest of several that are as far apart", ["2023-05-01", "2023-07-01", "2024-05-01", "2024-07-01"], ["2023-07-01", "2024-07-01"]],
    ["the first and the last where no two are of the same time", ["2024-03-01", "2024-05-01", "2024-07-01"], ["2024-03-01", "2024-07-01"]],
    ["none where there is one", ["2024-03-01"], null],
    ["none where all are of one day", ["2024-03-01", "2024-03-01"], null],
  ])("are %s", (_, photos, pair) => expect(days(pairOf(of(...photos)))).toEqual(pair));

  it("take in another one where it belongs in time", () => {
    const [a, b, early, near, late] = of("2022-07-01", "2024-07-01", "2021-05-01", "2024-05-01", "2025-07-01") as [Photo, Photo, Photo, Photo, Photo];
    expect([early, near, late].map((one) => days(pairWith([a, b], one)))).toEqual([["2021-05-01", "2024-07-01"], ["2022-07-01", "2024-05-01"], ["2022-07-01", "2025-07-01"]]);
  });
});
