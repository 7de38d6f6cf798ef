// A photograph with a cane in it, drawn by the browser under test, and where its points are.
import { setTimeout as pause } from "node:timers/promises";

const picture = { width: 900, height: 1200 };

/** Shares of the picture's sides; the plant is four thirds of the cane. */
export const canePoints = { "cane’s foot": [0.3, 0.9], "cane’s top": [0.3, 0.45], "plant’s foot": [0.65, 0.9], "plant’s top": [0.65, 0.3] };

/** In the page: draws a cane beside a plant, as a JPEG in base 64. */
async function draw({ width, height, points }) {
  const canvas = new OffscreenCanvas(width, height);
  const pen = canvas.getContext("2d");
  const at = ([x, y]) => [x * width, y * height];
  const stroke = (from, to, thick, colour) => {
    [pen.lineWidth, pen.strokeStyle] = [thick, colour];
    pen.beginPath();
    pen.moveTo(...at(points[from]));
    pen.lineTo(...at(points[to]));
    pen.stroke();
  };
  [pen.fillStyle] = ["#8fa98c"];
  pen.fillRect(0, 0, width, height);
  pen.fillStyle = "#5b4a38";
  pen.fillRect(0, height * 0.9, width, height);
  stroke("cane’s foot", "cane’s top", 8, "#e8d9a0");
  stroke("plant’s foot", "plant’s top", 30, "#2c5530");
  const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: "image/jpeg" })).arrayBuffer());
  return btoa(bytes.reduce((text, byte) => text + String.fromCharCode(byte), ""));
}

/** The photograph, as a file's bytes. */
export async function caneJpeg(page) {
  return Buffer.from(await page.evaluate(draw, { ...picture, points: canePoints }), "base64");
}

/** Where the picture lies once it has come to rest: it is brought above the dock as it comes. */
async function atRest(page) {
  const picture = page.getByRole("application");
  for (let before = ""; ; await pause(150)) {
    const box = await picture.boundingBox();
    const now = JSON.stringify(box);
    if (box && now === before) return box;
    before = now;
  }
}

/** Taps points on the screen that measures, one after another. */
export async function tapPoints(page, points) {
  for (const [x, y] of points) {
    const box = await atRest(page);
    await page.mouse.click(box.x + x * box.width, box.y + y * box.height);
  }
}
