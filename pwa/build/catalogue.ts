import { readFileSync } from "node:fs";
import type { Plugin } from "vite";

const source = new URL("../../garden/catalogue.json", import.meta.url);

/** Serves and ships the catalogue of kinds, the same file that the Go package `garden` embeds, as /catalogue.json. */
export function catalogue(): Plugin {
  return {
    name: "haulm-catalogue",
    configureServer(server) {
      server.middlewares.use("/catalogue.json", (_request, response) => {
        response.setHeader("Content-Type", "application/json").end(readFileSync(source));
      });
    },
    generateBundle() {
      const text = JSON.stringify(JSON.parse(readFileSync(source, "utf8")));
      this.emitFile({ type: "asset", fileName: "catalogue.json", source: text });
    },
  };
}
