import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { TroubleError } from "../words/trouble";
import { Loop, type LoopStatus } from "./loop";

let told: LoopStatus[] = [];
let runs = 0;
let fail: TroubleError | null = null;
let random = 0;
let loop: Loop;

beforeEach(() => {
  vi.useFakeTimers({ now: 0 });
  [told, runs, fail, random] = [[], 0, null, 0];
  const work = async () => {
    runs += 1;
    if (fail) throw fail;
  };
  loop = new Loop(work, { now: () => Date.now(), random: () => random, told: (status) => told.push(status) });
});
afterEach(() => {
  loop.end();
  vi.useRealTimers();
});

const last = () => told.at(-1)!;

describe("the loop", () => {
  it("rests when the work is done", async () => {
    await loop.wake();
    expect([runs, last().state]).toEqual([1, "resting"]);
  });

  it("works once more when woken while it works", async () => {
    const first = loop.wake();
    void loop.wake();
    await first;
    expect(runs).toBe(2);
  });

  it("tries again by itself with pauses that double up to five minutes", async () => {
    fail = new TroubleError("no-answer");
    await loop.wake();
    const pauses: number[] = [];
    for (let i = 0; i < 12; i++) {
      pauses.push(last().nextTryMs! - Date.now());
      await vi.advanceTimersByTimeAsync(pauses.at(-1)!);
    }
    expect(pauses.slice(0, 4)).toEqual([1000, 2000, 4000, 8000]);
    expect([pauses.at(-1), runs]).toEqual([150_000, 13]);
  });

  it("spreads the pauses", async () => {
    fail = new TroubleError("server-failed");
    random = 0.5;
    await loop.wake();
    expect([last().state, last().trouble?.code, last().nextTryMs]).toEqual(["waiting", "server-failed", 1500]);
  });

  it("begins with the short pause again after it went well", async () => {
    fail = new TroubleError("no-answer");
    await loop.wake();
    await loop.wake();
    fail = null;
    await loop.wake();
    fail = new TroubleError("no-answer");
    await loop.wake();
    expect(last().nextTryMs).toBe(1000);
  });

  it("stops when the phone was shut out, until a person wakes it", async () => {
    fail = new TroubleError("shut-out");
    await loop.wake();
    await vi.advanceTimersByTimeAsync(3_600_000);
    expect([runs, last().state]).toEqual([1, "stopped"]);
    fail = null;
    await loop.wake();
    expect(last().state).toBe("resting");
  });

  it("makes no further try once ended", async () => {
    fail = new TroubleError("no-answer");
    await loop.wake();
    loop.end();
    await vi.advanceTimersByTimeAsync(3_600_000);
    await loop.wake();
    expect(runs).toBe(1);
  });
});
