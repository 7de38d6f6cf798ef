// Writes a .br and a .gz beside every file that was built and gains from it, at the
// strongest setting: the server only ever sends what was compressed here.
import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const built = new URL("../.built/", import.meta.url).pathname;
const worthIt = /\.(html|js|css|svg|json|webmanifest|wasm|txt)$/;
const smallest = 512; // bytes; below that the headers outweigh the gain

for (const name of readdirSync(built, { recursive: true })) {
  const path = join(built, name);
  if (worthIt.test(name) && statSync(path).size >= smallest) compress(path);
}

function compress(path) {
  const plain = readFileSync(path);
  const params = {
    [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
    [constants.BROTLI_PARAM_SIZE_HINT]: plain.length,
  };
  writeFileSync(`${path}.br`, brotliCompressSync(plain, { params }));
  writeFileSync(`${path}.gz`, gzipSync(plain, { level: constants.Z_BEST_COMPRESSION }));
}
