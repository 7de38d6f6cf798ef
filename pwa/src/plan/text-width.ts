// How wide a text is on the plan, as the browser's own letters make it.

const pen: OffscreenCanvasRenderingContext2D | null = globalThis.OffscreenCanvas ? new OffscreenCanvas(1, 1).getContext("2d") : null;

/** Where nothing can measure: the mean letter of a text face (0.5 of its size, and somewhat more, so that names rather stay apart). */
const MEAN_LETTER = 0.55;

export function widthOf(text: string, size: number): number {
  if (!pen) return text.length * size * MEAN_LETTER;
  pen.font = `600 ${size}px "Source Serif 4 Variable", Georgia, serif`; // the wider of the two faces
  return pen.measureText(text).width;
}
