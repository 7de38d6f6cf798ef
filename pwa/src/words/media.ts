/**
 * What pictures and sounds begin with, as the server looks at it too (media/sniff.go,
 * where the standards are named): a file that is neither must not become an entry.
 */

export type MediaType = "image/jpeg" | "image/png" | "image/heic" | "image/heif" | "audio/webm" | "audio/ogg" | "audio/mp4";

const beginnings: readonly (readonly [string, MediaType])[] = [
  ["\xff\xd8\xff", "image/jpeg"],
  ["\x89PNG\r\n\x1a\n", "image/png"],
  ["OggS", "audio/ogg"],
];

/** Major brands of ISO base media files, which stand behind "ftyp". */
const brands: ReadonlyMap<string, MediaType> = new Map([
  ...(["heic", "heix", "heim", "heis", "hevc", "hevx", "hevm", "hevs"] as const).map((brand) => [brand, "image/heic"] as const),
  ...(["mif1", "msf1"] as const).map((brand) => [brand, "image/heif"] as const),
  ...(["M4A ", "mp41", "mp42", "isom", "iso2", "iso4", "iso5", "iso6"] as const).map((brand) => [brand, "audio/mp4"] as const),
]);

/** What other programs open such a file by. */
const endings: Readonly<Record<string, string>> = {
  "image/jpeg": "jpg", "image/png": "png", "image/heic": "heic", "image/heif": "heif",
  "audio/webm": "webm", "audio/ogg": "ogg", "audio/mp4": "m4a",
} satisfies Record<MediaType, string>;

/** Within how many bytes a WebM file names itself. */
const sniffBytes = 64;

/** What a file is by its first bytes, or null for nothing that Haulm keeps. */
export function kindOfFile(file: ArrayBuffer): MediaType | null {
  const head = String.fromCharCode(...new Uint8Array(file.slice(0, sniffBytes)));
  const found = beginnings.find(([beginning]) => head.startsWith(beginning));
  if (found) return found[1];
  if (head.startsWith("\x1a\x45\xdf\xa3") && head.includes("webm")) return "audio/webm";
  return head.startsWith("ftyp", 4) ? (brands.get(head.slice(8, 12)) ?? null) : null;
}

/** How the name of a file of a type ends. */
export function endingOf(type: string): string {
  return endings[type.split(";")[0]!] ?? "bin";
}
