import { describe, expect, it } from "vitest";
import { drawHeights, stretches } from "./height-scale";

const box = { left: 30, right: 330, top: 10, bottom: 110 };
const chart = {
  unit: "cm" as const,
  band: [{ day: "2012-01-01", lo: 30, mid: 40, hi: 50 }, { day: "2015-12-31", lo: 80, mid: 90, hi: 100 }],
  measured: [{ day: "2012-01-01", cm: 40 }, { day: "2014-01-01", cm: 60 }],
};

describe("stretches", () => {
  const measured = [{ day: "2013-06-14", cm: 88 }, { day: "2014-05-02", cm: 34 }, { day: "2014-06-20", cm: 76 }];
  it("begins a new line where the plant died down", () => {
    const band = [{ day: "2013-06-01", lo: 70, mid: 80, hi: 90 }, { day: "2014-03-01", lo: 0, mid: 0, hi: 2 }, { day: "2014-06-01", lo: 60, mid: 70, hi: 80 }];
    expect(stretches({ unit: "cm", band, measured }).map((stretch) => stretch.length)).toEqual([1, 2]);
  });
  it("is one line for what stands all year", () => expect(stretches({ ...chart, measured })).toHaveLength(1));
});

describe("drawHeights", () => {
  const drawn = drawHeights(chart, "2014-07-11", box);

  it("begins at the left edge and keeps time's proportion", () =>
    expect(drawn.points.map(({ x }) => x)).toEqual([30, 180.2]));
  it("draws taller things higher", () => expect(drawn.points[1]!.y).toBeLessThan(drawn.points[0]!.y));
  it("measures from the ground", () => expect(110 - drawn.points[1]!.y).toBeCloseTo(((110 - drawn.points[0]!.y) * 60) / 40, 0));
  it("names the years", () => expect(drawn.years.map(({ year }) => year)).toEqual([2012, 2013, 2014, 2015]));
  it("shows today within the chart only", () => {
    expect(drawn.now).toBeGreaterThan(180);
    expect(drawHeights(chart, "2019-01-01", box).now).toBeNull();
  });
  it("leaves out years that would run into each other", () => {
    const long = { ...chart, band: [{ ...chart.band[0]!, day: "1990-01-01" }, chart.band[1]!] };
    expect(drawHeights(long, "2014-07-11", box).years.length).toBeLessThan(9);
  });
});
