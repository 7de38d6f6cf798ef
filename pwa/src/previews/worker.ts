/** The worker that previews are made in, so that a large picture never holds up the page. */
import { widths, type Width } from "../store/held";
import type { PreviewQuestion, PreviewReply } from "./protocol";

declare const self: DedicatedWorkerGlobalScope;

/** JPEG quality of previews: signs on a leaf still show, and a picture takes some 300 kB. */
const quality = 0.8;

/**
 * The previews of a picture, the longer side at most 1600 and 320 pixels, upright.
 * The picture is decoded once and the small one is made from the large one.
 */
async function previewsOf(picture: Blob): Promise<[Width, ArrayBuffer][]> {
  const decoded = await createImageBitmap(picture, { imageOrientation: "from-image" });
  const previews: [Width, ArrayBuffer][] = [];
  let source: ImageBitmap | OffscreenCanvas = decoded;
  for (const width of [...widths].sort((a, b) => b - a)) {
    source = scaled(source, width);
    previews.push([width, await (await source.convertToBlob({ type: "image/jpeg", quality })).arrayBuffer()]);
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

async function answer({ id, picture }: PreviewQuestion): Promise<PreviewReply> {
  try {
    return { id, previews: await previewsOf(picture) };
  } catch (thrown) {
    return { id, unreadable: String(thrown) };
  }
}

self.onmessage = async ({ data }: MessageEvent<PreviewQuestion>) => {
  const reply = await answer(data);
  self.postMessage(reply, "previews" in reply ? reply.previews.map(([, bytes]) => bytes) : []);
};
