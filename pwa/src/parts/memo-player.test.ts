import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { MemoPlayer } from "./memo-player.svelte";

/** The browser's player, as far as it matters here. */
class Loudspeaker {
  static all: Loudspeaker[] = [];
  static refuses = false;
  playing = false;
  currentTime = 0;
  onended: () => void = () => undefined;
  onerror: () => void = () => undefined;
  ontimeupdate: () => void = () => undefined;

  constructor(readonly src: string) {
    Loudspeaker.all.push(this);
  }

  async play(): Promise<void> {
    if (Loudspeaker.refuses) throw new DOMException("not now", "NotAllowedError");
    this.playing = true;
  }

  pause(): void { this.playing = false; }
}

let give: (sound: Blob | null) => void;
let player: MemoPlayer;
const playing = () => Loudspeaker.all.filter((one) => one.playing).length;

beforeEach(() => {
  [Loudspeaker.all, Loudspeaker.refuses] = [[], false];
  vi.stubGlobal("Audio", Loudspeaker);
  player = new MemoPlayer(() => new Promise((resolve) => (give = resolve)));
});
afterEach(() => {
  vi.unstubAllGlobals();
});

it("plays from one tap to the next", async () => {
  const started = player.play();
  expect(player.on).toBe(true);
  give(new Blob(["said"]));
  await started;
  Loudspeaker.all[0]!.currentTime = 2;
  Loudspeaker.all[0]!.ontimeupdate();
  expect([playing(), player.elapsedMs]).toEqual([1, 2000]);
  player.stop();
  expect([playing(), player.on, player.trouble]).toEqual([0, false, null]);
});

it("plays nothing that was stopped or left while it was fetched", async () => {
  const started = player.play();
  player.stop();
  give(new Blob(["said"]));
  await started;
  expect([Loudspeaker.all.length, player.on]).toEqual([0, false]);
});

it("plays once what is asked for again while it was fetched", async () => {
  const first = player.play();
  const giveFirst = give;
  player.stop();
  const second = player.play();
  giveFirst(new Blob(["said"]));
  give(new Blob(["said"]));
  await Promise.all([first, second]);
  expect([playing(), player.on]).toEqual([1, true]);
});

it("says of a sound that is not here, or that is not let play, which it is", async () => {
  const missing = player.play();
  give(null);
  await missing;
  expect([player.on, player.trouble]).toEqual([false, "not-here"]);
  Loudspeaker.refuses = true;
  const refused = player.play();
  give(new Blob(["said"]));
  await refused;
  expect([player.on, player.trouble]).toEqual([false, "not-played"]);
});
