/** The small build of exifr: JPEG and HEIC, without names for tags. */
declare module "exifr/dist/lite.esm.mjs" {
  export { parse } from "exifr";
}
