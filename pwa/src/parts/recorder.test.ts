import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { longestMemoMs, Recorder } from "./recorder.svelte";

/** The microphone and the browser's recorder, as far as they matter here. */
class Tape {
  static types = ["audio/mp4"];
  static last: Tape;
  static fails: "made" | "started" | null = null;
  static isTypeSupported = (type: string) => Tape.types.includes(type);
  state = "inactive";
  mimeType: string;
  ondataavailable: (event: { data: Blob }) => void = () => undefined;
  onstop: () => void = () => undefined;
  said = "what was said";

  constructor(readonly stream: unknown, options: { mimeType?: string }) {
    if (Tape.fails === "made") throw new DOMException("no such kind", "NotSupportedError");
    this.mimeType = options.mimeType ?? "";
    Tape.last = this;
  }

  start(): void {
    if (Tape.fails === "started") throw new DOMException("its track ended", "InvalidStateError");
    this.state = "recording";
  }

  stop(): void {
    this.state = "inactive";
    this.ondataavailable({ data: new Blob([this.said]) });
    this.onstop();
  }
}

let listening: boolean;
let kept: Blob[];
let recorder: Recorder;
let allow: () => Promise<unknown>;
const stream = { getTracks: () => [{ stop: () => (listening = false) }] };

beforeEach(() => {
  vi.useFakeTimers();
  [listening, kept, Tape.fails] = [false, [], null];
  allow = async () => ((listening = true), stream);
  vi.stubGlobal("MediaRecorder", Tape);
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia: () => allow() } });
  recorder = new Recorder((sound) => kept.push(sound));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe("recording", () => {
  it("gives what was said between two taps, in a kind that this browser has, and lets the microphone go", async () => {
    await recorder.start();
    expect([recorder.state, listening, Tape.last.mimeType]).toEqual(["recording", true, "audio/mp4"]);
    vi.advanceTimersByTime(2000);
    expect(recorder.elapsedMs).toBeGreaterThan(1500);
    recorder.stop();
    expect([recorder.state, listening, await kept[0]!.text()]).toEqual(["idle", false, "what was said"]);
  });

  it("ends by itself at its limit, and keeps what was said", async () => {
    await recorder.start();
    vi.advanceTimersByTime(longestMemoMs + 1000);
    expect([recorder.state, listening, kept.length]).toEqual(["idle", false, 1]);
  });

  it("begins once however often it is tapped, and ends once", async () => {
    await Promise.all([recorder.start(), recorder.start()]);
    recorder.stop();
    recorder.stop();
    expect(kept.length).toBe(1);
  });

  it("keeps what was said when the screen is left", async () => {
    await recorder.start();
    recorder.leave();
    expect([kept.length, listening]).toEqual([1, false]);
  });

  it("lets the microphone go that was granted after the screen was left", async () => {
    let grant = (_: unknown) => {};
    allow = () => new Promise((resolve) => (grant = resolve));
    const starting = recorder.start();
    recorder.leave();
    listening = true;
    grant(stream);
    await starting;
    expect([listening, kept]).toEqual([false, []]);
  });

  it.each(["made", "started"] as const)("lets the microphone go where a recorder cannot be %s, and runs no clock", async (fails) => {
    Tape.fails = fails;
    await recorder.start();
    expect([recorder.state, listening, vi.getTimerCount()]).toEqual(["missing", false, 0]);
  });

  it.each([["NotAllowedError", "refused"], ["NotFoundError", "missing"]])("says of %s that it is %s, and can be tried again", async (name, state) => {
    allow = () => Promise.reject(Object.assign(new Error(), { name }));
    await recorder.start();
    expect([recorder.state, kept]).toEqual([state, []]);
    allow = async () => stream;
    await recorder.start();
    expect(recorder.state).toBe("recording");
  });
});
