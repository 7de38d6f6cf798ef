import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

const spoken = fileURLToPath(new URL("../src/words/messages.ts", import.meta.url));

/** Gives the screens the texts of one language in place of paraglide's module, which carries them all. */
export function oneLanguage(): Plugin {
  return {
    name: "haulm-one-language",
    enforce: "pre",
    resolveId: (id) => (id.endsWith("/paraglide/messages.js") ? spoken : null),
  };
}
