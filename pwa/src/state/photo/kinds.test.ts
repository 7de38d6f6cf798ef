import { expect, it } from "vitest";
import { isPicture } from "./kinds";

const file = (text: string): ArrayBuffer => Uint8Array.from(text, (letter) => letter.charCodeAt(0)).buffer;

it.each(["\xff\xd8\xff\xe0\0\x10JFIF", "\x89PNG\r\n\x1a\n\0\0", "\0\0\0\x18ftypheic", "\0\0\0\x18ftypmif1"])("takes %j", (text) =>
  expect(isPicture(file(text))).toBe(true));
it.each(["", "notes", "GIF89a", "\0\0\0\x18ftypisom", "\xff\xd8", "%PDF-1.7"])("does not take %j", (text) => expect(isPicture(file(text))).toBe(false));
