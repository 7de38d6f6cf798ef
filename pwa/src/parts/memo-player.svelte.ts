/** Why a memo cannot be heard: its sound is not here, or this browser cannot play it. */
export type MemoTrouble = "not-here" | "not-played";

/** Plays one sound, from a tap that asks for it until its end or another tap, also while it is still fetched. */
export class MemoPlayer {
  readonly #sound: () => Promise<Blob | null>;
  #asked = $state.raw<object | null>(null);
  #audio: HTMLAudioElement | null = null;
  #elapsedMs = $state(0);
  #trouble = $state<MemoTrouble | null>(null);

  constructor(sound: () => Promise<Blob | null>) {
    this.#sound = sound;
  }

  get on(): boolean { return this.#asked !== null; }
  get elapsedMs(): number { return this.#elapsedMs; }
  get trouble(): MemoTrouble | null { return this.#trouble; }

  async play(): Promise<void> {
    const asked = {};
    [this.#asked, this.#elapsedMs, this.#trouble] = [asked, 0, null];
    const sound = await this.#sound().catch(() => null);
    if (this.#asked !== asked) return;
    if (!sound) return this.#end("not-here");
    const audio = (this.#audio = new Audio(URL.createObjectURL(sound)));
    const unheard = (): void => (this.#asked === asked ? this.#end("not-played") : undefined);
    audio.onended = () => this.stop();
    audio.onerror = unheard;
    audio.ontimeupdate = () => (this.#elapsedMs = audio.currentTime * 1000);
    await audio.play().catch(unheard);
  }

  stop(): void {
    this.#end(null);
  }

  #end(trouble: MemoTrouble | null): void {
    this.#asked = null;
    this.#trouble = trouble;
    if (!this.#audio) return;
    this.#audio.pause();
    URL.revokeObjectURL(this.#audio.src);
    this.#audio = null;
  }
}
