import { widths, type Width } from "../../store/held";

/** JPEG quality of previews: signs on a leaf still show, and a picture takes some 300 kB. */
const quality = 0.8;

/**
 * Makes the previews of a picture, the longer side at most 1600 and 320 pixels,
 * upright. The picture is decoded once and the small one is made from the large
 * one. Rejects when the phone cannot read the picture.
 */
export async function previewsOf(picture: Blob): Promise<ReadonlyMap<Width, ArrayBuffer>> {
  const decoded = await createImageBitmap(picture, { imageOrientation: "from-image" });
  const previews = new Map<Width, ArrayBuffer>();
  let source: ImageBitmap | OffscreenCanvas = decoded;
  for (const width of [...widths].sort((a, b) => b - a)) {
    source = scaled(source, width);
    previews.set(width, await (await source.convertToBlob({ type: "image/jpeg", quality })).arrayBuffer());
  }
  decoded.close();
  return previews;
}

function scaled(source: ImageBitmap | OffscreenCanvas, longest: number): OffscreenCanvas {
  const scale = Math.min(1, longest / Math.max(source.width, source.height));
  const side = (pixels: number) => Math.max(1, Math.round(pixels * scale));
  const canvas = new OffscreenCanvas(side(source.width), side(source.height));
  const drawing = canvas.getContext("2d", { alpha: false })!;
  drawing.imageSmoothingQuality = "high";
  drawing.drawImage(source, 0, 0, canvas.width, canvas.height);
  return canvas;
}
