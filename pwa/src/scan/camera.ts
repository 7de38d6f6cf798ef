// The phone's camera as a film to read codes from.

import { NoReader, reader, type Reader } from "./reader";

/** Why there is no film: refused by the person or the system, none there, taken by another app, the page may not ask, or nothing is there to read it with. */
export type NoCamera = "refused" | "none" | "busy" | "insecure" | "no-reader";

/** Between two looks, milliseconds: ten a second find a code as soon as a hand is still, and leave the phone cool (a choice of ours). */
const EVERY_MS = 100;

/**
 * Shows what the camera sees in `video` and calls `found` with each text that it
 * reads, until the function that it gives is called.
 */
export async function film(video: HTMLVideoElement, found: (text: string) => void): Promise<() => void> {
  if (!navigator.mediaDevices) throw new Error("insecure" satisfies NoCamera);
  const read = await reader();
  // The back of a phone; any camera of a computer. 1280 pixels show the modules of a label at arm's length.
  const stream = await navigator.mediaDevices.getUserMedia({ audio: false, video: { facingMode: "environment", width: { ideal: 1280 } } });
  const stop = (): void => stream.getTracks().forEach((track) => track.stop());
  try {
    video.srcObject = stream;
    await video.play();
    const watching = watch(video, read, found);
    return () => (watching.stop(), stop());
  } catch (thrown) {
    stop();
    throw thrown;
  }
}

function watch(video: HTMLVideoElement, read: Reader, found: (text: string) => void): { stop(): void } {
  let timer: ReturnType<typeof setTimeout> | null = null;
  let stopped = false;
  const look = async (): Promise<void> => {
    const text = video.readyState >= video.HAVE_CURRENT_DATA ? await read(video).catch(() => null) : null;
    if (stopped) return;
    if (text !== null) found(text);
    if (!stopped) timer = setTimeout(() => void look(), EVERY_MS);
  };
  void look();
  return { stop: () => { stopped = true; if (timer !== null) clearTimeout(timer); } };
}

/** What a browser's refusal means (Media Capture and Streams, section 10.2). */
export function whyNoCamera(thrown: unknown): NoCamera {
  if (thrown instanceof Error && thrown.message === ("insecure" satisfies NoCamera)) return "insecure";
  if (thrown instanceof NoReader) return "no-reader";
  const name = thrown instanceof DOMException ? thrown.name : "";
  if (name === "NotFoundError" || name === "OverconstrainedError") return "none";
  return name === "NotReadableError" || name === "AbortError" ? "busy" : "refused";
}
