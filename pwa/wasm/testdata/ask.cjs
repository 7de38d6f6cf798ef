// Answers the agreement test's questions, one JSON a line, with the phone's own
// WebAssembly: node ask.cjs wasm_exec.js almanac.wasm < questions > answers
const fs = require("node:fs");
const readline = require("node:readline");
const [, , loader, wasm] = process.argv;
require(loader);

async function main() {
  const go = new Go();
  const { instance } = await WebAssembly.instantiate(fs.readFileSync(wasm), go.importObject);
  go.run(instance);
  const tidy = (answer) => answer.replace(/\n/g, "");
  for await (const line of readline.createInterface({ input: process.stdin })) {
    const { records, ask } = JSON.parse(line);
    console.log(tidy(haulmAlmanac.upsert(JSON.stringify(records))));
    for (const { verb, in: input } of ask) {
      console.log(tidy(haulmAlmanac.ask(verb, input)));
    }
    haulmAlmanac.forget(JSON.stringify(records.map((one) => one.record)));
  }
  process.stdout.write("", () => process.exit(0)); // once all of it is out
}
main();
