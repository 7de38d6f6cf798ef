// Puts what was built in .built into dist, at once, so that a Go build running
// meanwhile never embeds half an app. The file .keep stays: it lets the Go package
// compile before the first build.
import { readdirSync, renameSync, rmSync } from "node:fs";

const built = new URL("../.built/", import.meta.url);
const dist = new URL("../dist/", import.meta.url);

for (const name of readdirSync(dist)) {
  if (name !== ".keep") rmSync(new URL(name, dist), { recursive: true });
}
for (const name of readdirSync(built)) renameSync(new URL(name, built), new URL(name, dist));
rmSync(built, { recursive: true });
