import { fileURLToPath } from "node:url";
import { paraglideVitePlugin } from "@inlang/paraglide-js";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { VitePWA } from "vite-plugin-pwa";
import { defineConfig } from "vitest/config";
import { catalogue } from "./build/catalogue.ts";
import { goRuntime } from "./build/go-runtime.ts";
import { oneLanguage } from "./build/one-language.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const megabyte = 1 << 20;

/** The oldest engines that have what Haulm stands on: module workers, Web Locks, structured cloning of buffers. */
const target = ["es2022", "chrome109", "firefox114", "safari16.4"];

const testing = process.env.VITEST !== undefined;

const building = [
  goRuntime(),
  catalogue(),
  oneLanguage(),
  paraglideVitePlugin({
    project: here("./project.inlang"),
    outdir: here("./src/paraglide"),
    strategy: ["baseLocale"],
    isServer: "false",
    outputStructure: "locale-modules",
  }),
  VitePWA({
    strategies: "injectManifest",
    srcDir: "src/service-worker",
    filename: "service-worker.ts",
    injectRegister: false,
    manifest: false,
    injectManifest: {
      globPatterns: ["**/*.{html,js,css,svg,png,woff2,json,webmanifest,wasm}"],
      maximumFileSizeToCacheInBytes: 16 * megabyte,
      target,
    },
  }),
];

export default defineConfig({
  // Tests find the texts compiled by `npm run words`, and need no app built; they run what browsers run.
  plugins: testing ? [svelte()] : [svelte(), ...building],
  worker: { format: "es", plugins: () => [goRuntime()] },
  // The content policy allows no data: addresses, so nothing is inlined.
  build: { target, outDir: ".built", assetsInlineLimit: 0, sourcemap: false, emptyOutDir: true },
  server: { proxy: { "/api": "http://localhost:8080" } },
  ...(testing && { resolve: { conditions: ["browser"] } }),
  test: {
    include: ["src/**/*.test.ts"],
    environment: here("./build/client-environment.ts"),
    restoreMocks: true,
    testTimeout: 60_000, // a machine that does much else at once; how fast things are is `make bench`'s to say
    server: { deps: { inline: ["svelte", "esm-env"] } },
  },
});
