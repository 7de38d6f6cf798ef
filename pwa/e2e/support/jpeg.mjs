// Photographs for the browser tests: a sample picture with a camera's time and
// place put into it (EXIF 2.32, CIPA DC-008), and padded to any size with
// application segments, as cameras' own are.
import { randomBytes } from "node:crypto";
import { readFileSync } from "node:fs";

const sample = new URL("../../../testdata/images/no_exif.jpg", import.meta.url);

const ASCII = 2, LONG = 4, RATIONAL = 5;

const text = (tag, value) => ({ tag, type: ASCII, count: value.length + 1, bytes: Buffer.from(value + "\0", "latin1") });
const long = (tag, value) => ({ tag, type: LONG, count: 1, bytes: Buffer.from(Uint32Array.of(value).buffer) });
const rationals = (tag, pairs) => ({ tag, type: RATIONAL, count: pairs.length, bytes: Buffer.from(Uint32Array.from(pairs.flat()).buffer) });

/** One little-endian directory at an offset, with its long values behind it. */
function directory(entries, at) {
  const head = Buffer.alloc(2 + entries.length * 12 + 4);
  head.writeUInt16LE(entries.length, 0);
  const tail = [];
  let free = at + head.length;
  entries.forEach(({ tag, type, count, bytes }, i) => {
    const entry = 2 + i * 12;
    head.writeUInt16LE(tag, entry);
    head.writeUInt16LE(type, entry + 2);
    head.writeUInt32LE(count, entry + 4);
    if (bytes.length <= 4) bytes.copy(head, entry + 8);
    else {
      head.writeUInt32LE(free, entry + 8);
      tail.push(bytes);
      free += bytes.length;
    }
  });
  return Buffer.concat([head, ...tail]);
}

function degrees(value) {
  const whole = Math.floor(value);
  const minutes = Math.floor((value - whole) * 60);
  return [[whole, 1], [minutes, 1], [Math.round(((value - whole) * 60 - minutes) * 60 * 1e6), 1e6]];
}

function exif({ taken, offset, lat, lon, accuracyM }) {
  const root = 8, camera = root + 2 + 2 * 12 + 4;
  const cameraEntries = [text(0x9003, taken), text(0x9011, offset)];
  const gps = camera + directory(cameraEntries, camera).length;
  const gpsEntries = [
    text(1, lat < 0 ? "S" : "N"), rationals(2, degrees(Math.abs(lat))),
    text(3, lon < 0 ? "W" : "E"), rationals(4, degrees(Math.abs(lon))),
    rationals(0x1f, [[Math.round(accuracyM * 1000), 1000]]),
  ];
  return Buffer.concat([
    Buffer.from("Exif\0\0II*\0\x08\0\0\0", "latin1"),
    directory([long(0x8769, camera), long(0x8825, gps)], root),
    directory(cameraEntries, camera),
    directory(gpsEntries, gps),
  ]);
}

function segment(marker, body) {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
}

/** A JPEG taken at a place and time; `bytes` pads it, with noise that no one can compress. */
export function photograph({ bytes = 0, ...taken }) {
  const picture = readFileSync(sample);
  const parts = [picture.subarray(0, 2), segment(0xe1, exif(taken))];
  let size = picture.length + parts[1].length;
  while (size < bytes) {
    const body = randomBytes(Math.min(60_000, Math.max(16, bytes - size)));
    parts.push(segment(0xef, body));
    size += body.length + 4;
  }
  return Buffer.concat([...parts, picture.subarray(2)]);
}
