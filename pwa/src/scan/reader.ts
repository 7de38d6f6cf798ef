/**
 * Finds a square code in a picture: by the browser's own detector where it has
 * one that reads them, else by jsQR on the picture's grey. Libraries are fetched
 * when the first picture comes.
 */

/** The browser's detector, as the Shape Detection API has it. */
type Detector = { detect(picture: ImageBitmapSource): Promise<readonly { rawValue: string }[]> };
type DetectorClass = { new (options: { formats: string[] }): Detector; getSupportedFormats(): Promise<string[]> };

export type Reader = (picture: Picture) => Promise<string | null>;
export type Picture = HTMLVideoElement | ImageBitmap;

/** The longest side that is searched, pixels: a label that fills a third of the picture has modules of 5 pixels then, and jsQR wants 3. Smaller first. */
const SIDES = [800, 1600] as const;

/** What reads codes could not be fetched: no fault of the label. */
export class NoReader extends Error {}

let made: Promise<Reader> | null = null;

/** The way that this browser reads codes; rejects with NoReader, and asked again it tries again. */
export function reader(): Promise<Reader> {
  made ??= make();
  return made;
}

async function make(): Promise<Reader> {
  try {
    const found = await detector();
    return found ? byDetector(found) : await byJsQr();
  } catch (thrown) {
    made = null;
    throw new NoReader("what reads codes did not load", { cause: thrown });
  }
}

async function detector(): Promise<Detector | null> {
  const Detectors = (globalThis as { BarcodeDetector?: DetectorClass }).BarcodeDetector;
  const formats = await Detectors?.getSupportedFormats().catch((): string[] => []);
  return Detectors && formats?.includes("qr_code") ? new Detectors({ formats: ["qr_code"] }) : null;
}

function byDetector(found: Detector): Reader {
  return async (picture) => (await found.detect(picture))[0]?.rawValue ?? null;
}

async function byJsQr(): Promise<Reader> {
  const { default: jsQR } = await import("jsqr");
  return async (picture) => {
    const moving = picture instanceof HTMLVideoElement;
    for (const side of moving ? SIDES.slice(0, 1) : SIDES) {
      const { data, width, height } = pixelsOf(picture, side);
      // A printed label is dark on light; trying the inverse too would take twice as long for each picture of a film.
      const found = jsQR(data, width, height, { inversionAttempts: moving ? "dontInvert" : "attemptBoth" });
      if (found?.data) return found.data;
    }
    return null;
  };
}

function pixelsOf(picture: Picture, side: number): ImageData {
  const [wide, high] = picture instanceof HTMLVideoElement ? [picture.videoWidth, picture.videoHeight] : [picture.width, picture.height];
  const shrink = Math.min(1, side / Math.max(wide, high));
  const canvas = new OffscreenCanvas(Math.max(1, Math.round(wide * shrink)), Math.max(1, Math.round(high * shrink)));
  const pen = canvas.getContext("2d", { willReadFrequently: true })!;
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return pen.getImageData(0, 0, canvas.width, canvas.height);
}
