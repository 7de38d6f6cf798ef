import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";

const name = "virtual:go-runtime";

/**
 * Gives the almanac's worker Go's own support script, which defines
 * `globalThis.Go` and must be of the very release that compiled almanac.wasm. It
 * is read from the Go installation so that it is never a copy that ages.
 */
export function goRuntime(): Plugin {
  return {
    name: "haulm-go-runtime",
    resolveId: (id) => (id === name ? `\0${name}` : null),
    load: (id) => (id === `\0${name}` ? readFileSync(supportScript(), "utf8") : null),
  };
}

function supportScript(): string {
  try {
    return join(execFileSync("go", ["env", "GOROOT"], { encoding: "utf8" }).trim(), "lib/wasm/wasm_exec.js");
  } catch (cause) {
    throw new Error("Go was not found. Install Go 1.24 or later and put its bin folder on PATH.", { cause });
  }
}
