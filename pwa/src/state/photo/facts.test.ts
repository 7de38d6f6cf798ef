import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { factsOf } from "./facts";

const folder = join(import.meta.dirname, "../../../../testdata/images");

function sample(name: string): ArrayBuffer {
  return new Uint8Array(readFileSync(join(folder, name))).buffer;
}

// Expected by ExifTool 12.57, as testdata/images/exiftool_summary.json records.
type Summary = { SourceFile: string; GPSLatitude?: number; GPSLongitude?: number; DateTimeOriginal?: string; OffsetTimeOriginal?: string };
const { files } = JSON.parse(readFileSync(join(folder, "exiftool_summary.json"), "utf8")) as { files: Summary[] };
const summary = new Map(files.map((file) => [file.SourceFile, file]));

describe("a picture's own facts", () => {
  it.each([
    "gps_ne_altitude_dop.jpg", "gps_nw.jpg", "gps_se_below_sea.jpg", "gps_sw_no_offset.jpg", "big_endian.jpg", "little_endian.jpg",
  ])("%s: the place that ExifTool reads", async (name) => {
    const { place } = await factsOf(sample(name));
    expect(place!.lat).toBeCloseTo(summary.get(name)!.GPSLatitude!, 6);
    expect(place!.lon).toBeCloseTo(summary.get(name)!.GPSLongitude!, 6);
  });

  it("the accuracy where the camera wrote it", async () => {
    expect((await factsOf(sample("gps_ne_altitude_dop.jpg"))).place!.accuracyM).toBe(4.7);
  });

  it.each(["gps_nw.jpg", "gps_se_below_sea.jpg", "offset_quarter_hour.jpg"])("%s: the time with its offset", async (name) => {
    const { DateTimeOriginal, OffsetTimeOriginal } = summary.get(name)!;
    const [date, time] = DateTimeOriginal!.split(" ");
    expect((await factsOf(sample(name))).taken).toBe(`${date!.replaceAll(":", "-")}T${time}${OffsetTimeOriginal}`);
  });

  it("a time without offset is the phone's own", async () => {
    expect((await factsOf(sample("gps_sw_no_offset.jpg"))).taken).toMatch(/^2024-02-29T12:00:00[+-]\d\d:\d\d$/);
  });

  it.each(["gps_zero_denominator.jpg", "gps_zero_zero.jpg"])("%s: no place", async (name) => {
    expect((await factsOf(sample(name))).place).toBeNull();
  });

  it.each(["date_blank.jpg", "no_exif.jpg", "hostile_empty.jpg", "hostile_html_named.jpg", "truncated_in_exif.jpg", "hostile_png_max_dims.png"])(
    "%s: nothing", async (name) => {
      expect(await factsOf(sample(name))).toEqual({ taken: null, place: null });
    });
});
