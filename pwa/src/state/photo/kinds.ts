/** What a picture begins with, as the server looks at it too: a file that is none must not become an entry. */

type Beginning = Readonly<{ at: number; bytes: string }>;

const beginnings: readonly Beginning[] = [
  { at: 0, bytes: "\xff\xd8\xff" }, // JPEG (ISO/IEC 10918-1)
  { at: 0, bytes: "\x89PNG\r\n\x1a\n" }, // PNG (ISO/IEC 15948)
  ...["heic", "heix", "heim", "heis", "mif1", "msf1", "heif"].map((brand) => ({ at: 4, bytes: `ftyp${brand}` })), // HEIF (ISO/IEC 23008-12)
];

/** Whether a file begins as a picture of a kind that Haulm keeps. */
export function isPicture(file: ArrayBuffer): boolean {
  const head = String.fromCharCode(...new Uint8Array(file.slice(0, 16)));
  return beginnings.some(({ at, bytes }) => head.startsWith(bytes, at));
}
