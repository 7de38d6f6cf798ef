import { fileURLToPath } from "node:url";
import { paraglideVitePlugin } from "@inlang/paraglide-js";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

// Builds the screens over the fixture into a folder of the tests' results.
export default defineConfig({
  root: here("."),
  publicDir: here("../../public"),
  plugins: [
    svelte({ configFile: here("../../svelte.config.js") }),
    paraglideVitePlugin({ project: here("../../project.inlang"), outdir: here("../../src/paraglide"), strategy: ["baseLocale"], outputStructure: "locale-modules", emitTsDeclarations: true }),
  ],
  build: { outDir: here("../../test-results/screens"), emptyOutDir: true, target: "es2022", assetsInlineLimit: 0 },
});
