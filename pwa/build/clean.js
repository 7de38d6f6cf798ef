// Empties dist but for .keep, which lets the Go package compile before the first build.
import { readdirSync, rmSync } from "node:fs";

const dist = new URL("../dist/", import.meta.url);

for (const name of readdirSync(dist)) {
  if (name !== ".keep") rmSync(new URL(name, dist), { recursive: true });
}
