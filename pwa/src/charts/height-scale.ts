// The axes of a height chart, apart from any drawing.

import { scaleLinear } from "d3-scale";
import { area, line } from "d3-shape";
import type { HeightChart } from "../almanac/answers";
import { daysBetween } from "../parts/dates";

type Band = HeightChart["band"][number];
type Measure = HeightChart["measured"][number];

export type Box = Readonly<{ left: number; right: number; top: number; bottom: number }>;

export type HeightDrawing = Readonly<{
  band: string;
  middle: string;
  path: string;
  points: readonly Readonly<{ x: number; y: number; cm: number; day: string }>[];
  lines: readonly Readonly<{ y: number; cm: number }>[];
  years: readonly Readonly<{ x: number; from: number; year: number }>[];
  now: number | null;
}>;

const MOST_LINES = 4;

/** Lays a chart out in a box of pixels. The heights' axis starts at the ground. */
export function drawHeights(chart: HeightChart, today: string, box: Box): HeightDrawing {
  const days = [...chart.band.map(({ day }) => day), ...chart.measured.map(({ day }) => day)].sort();
  const first = days[0] ?? today;
  const last = days.at(-1) ?? today;
  const tallest = Math.max(10, ...chart.band.map(({ hi }) => hi), ...chart.measured.map(({ cm }) => cm));
  const across = scaleLinear([0, Math.max(1, daysBetween(first, last))], [box.left, box.right]);
  const up = scaleLinear([0, tallest * 1.06], [box.bottom, box.top]);
  const x = (day: string): number => round(across(daysBetween(first, day)));
  const y = (cm: number): number => round(up(cm));
  return {
    band: area<Band>((at) => x(at.day), (at) => y(at.lo), (at) => y(at.hi))([...chart.band]) ?? "",
    middle: line<Band>((at) => x(at.day), (at) => y(at.mid)).defined(({ mid }) => mid > 0)([...chart.band]) ?? "",
    path: stretches(chart).map((stretch) => line<Measure>((at) => x(at.day), (at) => y(at.cm))([...stretch]) ?? "").join(""),
    points: chart.measured.map(({ day, cm }) => ({ x: x(day), y: y(cm), cm, day })),
    lines: up.ticks(MOST_LINES).filter((cm) => cm > 0).map((cm) => ({ cm, y: y(cm) })),
    years: years(first, last, x, box),
    now: today >= first && today <= last ? x(today) : null,
  };
}

const DIED_DOWN = 0.3; // of the lower of two measures; below it the plant went to the ground between them

/** Measures that one line may join: a plant that dies down begins again each year. */
export function stretches({ measured, band }: HeightChart): readonly (readonly Measure[])[] {
  const parts: Measure[][] = [];
  for (const measure of measured) {
    const last = parts.at(-1)?.at(-1);
    if (!last || diedDown(band, last, measure)) parts.push([measure]);
    else parts.at(-1)!.push(measure);
  }
  return parts;
}

function diedDown(band: readonly Band[], from: Measure, to: Measure): boolean {
  return band.some(({ day, mid }) => day > from.day && day < to.day && mid < DIED_DOWN * Math.min(from.cm, to.cm));
}

/** Each year's middle on the axis, where its number stands, and its first day. */
function years(first: string, last: string, x: (day: string) => number, box: Box): HeightDrawing["years"] {
  const list: { x: number; from: number; year: number }[] = [];
  for (let year = Number(first.slice(0, 4)); year <= Number(last.slice(0, 4)); year++) {
    const from = Math.max(box.left, x(`${year}-01-01`));
    const to = Math.min(box.right, x(`${year}-12-31`));
    list.push({ x: round((from + to) / 2), from, year });
  }
  const widest = 34;
  const every = Math.max(1, Math.ceil((list.length * widest) / (box.right - box.left)));
  return list.filter(({ year }) => year % every === 0 || every === 1);
}

function round(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}
