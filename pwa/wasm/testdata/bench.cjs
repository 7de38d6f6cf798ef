// Times the phone's almanac: node bench.cjs wasm_exec.js almanac.wasm, with the
// records on the first line of standard input and the day on the second.
const fs = require("node:fs");
const [, , loader, wasm] = process.argv;
require(loader);

async function main() {
  const go = new Go();
  const { instance } = await WebAssembly.instantiate(fs.readFileSync(wasm), go.importObject);
  go.run(instance);
  const [records, on] = fs.readFileSync(0, "utf8").split("\n");
  const started = performance.now();
  haulmAlmanac.upsert(records);
  const loaded = performance.now();
  const last = JSON.stringify(JSON.parse(records).slice(-1));
  const [assessed, weighed] = [[], []];
  const ask = (verb, times) => {
    const asked = performance.now();
    const answer = JSON.parse(haulmAlmanac.ask(verb, JSON.stringify({ on })));
    if (answer.error) throw new Error(answer.error);
    times.push(performance.now() - asked);
  };
  for (let n = 0; n < 7; n++) {
    haulmAlmanac.upsert(last);
    ask("assess", assessed);
    ask("worth", weighed);
  }
  const median = (times) => times.sort((a, b) => a - b)[3];
  console.log(JSON.stringify({ LoadMs: loaded - started, AssessMs: median(assessed), WorthMs: median(weighed) }));
  process.exit(0);
}
main();
