/** What a recorder does: nothing, it waits for the microphone, it records, or it cannot. */
export type RecorderState = "idle" | "asking" | "recording" | "refused" | "missing";

/** Long enough for all that can be said of one plant; longer would wait long on a poor line (some 700 kB in all). */
export const longestMemoMs = 180_000;

/** Bits in a second: speech stays plain in wind at that (a choice of ours; Opus needs 24,000 for full-band speech, RFC 7587). */
const rate = 32_000;

/** How often the time is shown anew, milliseconds. */
const tickMs = 250;

/** What browsers record, best first; the server takes all of these. */
const types = ["audio/webm;codecs=opus", "audio/mp4", "audio/ogg;codecs=opus"];

/** Records from the phone's microphone: one tap to start, one to stop. What was said is given to `done`, however it ended. */
export class Recorder {
  #state: RecorderState = $state("idle");
  #elapsedMs = $state(0);
  #recording: MediaRecorder | null = null;
  #left = false;
  readonly #done: (sound: Blob) => void;

  constructor(done: (sound: Blob) => void) {
    this.#done = done;
  }

  get state(): RecorderState { return this.#state; }
  get elapsedMs(): number { return this.#elapsedMs; }

  async start(): Promise<void> {
    if (this.#state === "asking" || this.#state === "recording") return;
    this.#state = "asking";
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
      if (this.#left) return release(stream);
      this.#take(stream);
    } catch (thrown) {
      this.#state = (thrown as { name?: string }).name === "NotAllowedError" ? "refused" : "missing";
    }
  }

  stop(): void {
    if (this.#recording?.state === "recording") this.#recording.stop();
  }

  /** The screen is left: what was said so far is kept. */
  leave(): void {
    this.#left = true;
    this.stop();
  }

  /** The microphone is let go where it cannot be recorded. */
  #take(stream: MediaStream): void {
    try {
      this.#record(stream);
    } catch (thrown) {
      release(stream);
      throw thrown;
    }
  }

  #record(stream: MediaStream): void {
    const mimeType = types.find((type) => MediaRecorder.isTypeSupported(type));
    const recording = new MediaRecorder(stream, { audioBitsPerSecond: rate, ...(mimeType && { mimeType }) });
    const parts: Blob[] = [];
    recording.start();
    const began = performance.now();
    const timer = setInterval(() => this.#tick(performance.now() - began), tickMs);
    recording.ondataavailable = ({ data }) => void parts.push(data);
    recording.onstop = () => {
      clearInterval(timer);
      release(stream);
      this.#recording = null;
      this.#state = "idle";
      const sound = new Blob(parts, { type: recording.mimeType });
      if (sound.size > 0) this.#done(sound);
    };
    this.#recording = recording;
    this.#elapsedMs = 0;
    this.#state = "recording";
  }

  #tick(elapsedMs: number): void {
    this.#elapsedMs = elapsedMs;
    if (elapsedMs >= longestMemoMs) this.stop();
  }
}

/** The microphone's light goes out. */
function release(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}
