// A film of a printed label for Chromium's pretended camera: the label as the
// sheet shows it, turned and on grey as it is held before a phone.
import { writeFileSync } from "node:fs";

const WIDE = 640, HIGH = 480, FRAMES = 10;

/** The grey of each pixel of a picture laid on a table and turned by some degrees. */
function greys({ bytes, wide, high, turn }) {
  return createImageBitmap(new Blob([Uint8Array.from(bytes)])).then((picture) => {
    const canvas = new OffscreenCanvas(wide, high);
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#8a8a82";
    pen.fillRect(0, 0, wide, high);
    pen.translate(wide / 2, high / 2);
    pen.rotate((turn * Math.PI) / 180);
    const scale = (0.9 * wide) / Math.hypot(picture.width, picture.height);
    pen.drawImage(picture, (-picture.width * scale) / 2, (-picture.height * scale) / 2, picture.width * scale, picture.height * scale);
    const { data } = pen.getImageData(0, 0, wide, high);
    return Array.from({ length: wide * high }, (_, i) => Math.round(0.299 * data[4 * i] + 0.587 * data[4 * i + 1] + 0.114 * data[4 * i + 2])); // ITU-R BT.601
  });
}

/** Writes a film (YUV4MPEG2, full range, no colour) of a picture on the page, such as a label; gives its bytes as PNG too. */
export async function filmOf(page, element, file, turn = 7) {
  const bytes = await element.screenshot();
  const luma = Buffer.from(await page.evaluate(greys, { bytes: [...bytes], wide: WIDE, high: HIGH, turn }));
  const frame = Buffer.concat([Buffer.from("FRAME\n"), luma, Buffer.alloc((WIDE * HIGH) / 2, 128)]);
  writeFileSync(file, Buffer.concat([Buffer.from(`YUV4MPEG2 W${WIDE} H${HIGH} F10:1 Ip A1:1 C420jpeg\n`), ...Array(FRAMES).fill(frame)]));
  return bytes;
}

/** The switches that make a file the camera of a browser. */
export const cameraOf = (file) => ["--use-fake-device-for-media-stream", `--use-file-for-fake-video-capture=${file}`];
