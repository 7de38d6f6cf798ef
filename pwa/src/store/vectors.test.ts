// The phone's part of testdata/vectors/sync, which Go's sync/change passes too.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { newClock, observe, tick } from "../words/clock";
import { bucketOf, emptyDigest, exchange, markOf } from "./digest";
import type { FeedRecord } from "./feed";
import type { HeldChange, HeldRecord } from "./held";
import { overlay } from "./overlay";

function vectors<T>(name: string): T {
  return JSON.parse(readFileSync(join(import.meta.dirname, "../../../testdata/vectors/sync", `${name}.json`), "utf8")) as T;
}

type WireChange = { id: string; record: HeldChange["ref"]; base: number; at: string; set?: Record<string, unknown>; gone?: boolean };
type OverlayCase = {
  name: string;
  server: FeedRecord | null;
  pending: { change: WireChange; seq?: number; refused?: boolean }[];
  passed: number;
  shows: { fields: Record<string, unknown> } | null;
};

/** A change as the store holds it; a refused one has left the changes. */
function held(pending: OverlayCase["pending"]): HeldChange[] {
  const kept = pending.filter(({ refused }) => !refused);
  return kept.map(({ change: { record, set, ...rest }, seq }) =>
    ({ ...rest, ref: record, set: set ?? {}, made: "", tried: true, ...(seq && { seq }) }));
}

describe("overlay", () => {
  const { cases } = vectors<{ cases: OverlayCase[] }>("overlay");
  it.each(cases.map((c) => [c.name, c] as const))("%s", (_, { server, pending, passed, shows }) => {
    const record = server ? ({ ...server, ref: server.record, kind: "planting", epoch: "a", mark: "" } as HeldRecord) : undefined;
    const shown = overlay("planting/x", record, held(pending), passed);
    expect(shown && !shown.gone ? { fields: shown.fields } : null).toEqual(shows);
  });
});

describe("digest", () => {
  type Case = { name: string; records: FeedRecord[]; digest: string; buckets: Record<string, string> };
  const { cases } = vectors<{ cases: Case[] }>("digest");
  it.each(cases.map((c) => [c.name, c] as const))("%s", async (_, { records, digest, buckets }) => {
    let sum = emptyDigest;
    const parts: Record<string, string> = {};
    for (const { record, at, gone } of records) {
      if (gone) continue;
      const [mark, bucket] = [await markOf(record, at), String(await bucketOf(record))];
      sum = exchange(sum, "", mark);
      parts[bucket] = exchange(parts[bucket] ?? emptyDigest, "", mark);
    }
    expect([sum, parts]).toEqual([digest, buckets]);
  });
});

describe("stamps", () => {
  type Step = { see: string } | { now: string; stamp: string };
  type Case = { name: string; device: string; steps: Step[] };
  const { order, cases } = vectors<{ order: string[]; cases: Case[] }>("stamp");

  it("sort as text", () => expect([...order].sort()).toEqual(order));

  it.each(cases.map((c) => [c.name, c] as const))("%s", (_, { device, steps }) => {
    let state = newClock;
    for (const step of steps) {
      if ("see" in step) {
        state = observe(state, step.see);
        continue;
      }
      const [stamp, next] = tick(state, Date.parse(step.now), device);
      state = next;
      expect(stamp).toBe(step.stamp);
    }
  });
});
