// Prints two tables: how fast Haulm is, and how well the almanac names late plants
// (which takes half an hour; "speed" or "skill" as an argument prints one alone).
// The table of speeds: what was measured, the aim, and the ratio of the
// two (above 1 is better than the aim), with the machine it was measured on.
// Benchmarks run one package at a time, so that they do not disturb each other.
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { phoneSpeeds } from "../pwa/e2e/bench.mjs";

// One row a measure: package, benchmark, unit as the benchmark reports it, what
// it is, and the aim ("≥" or "≤" and a number), where there is one.
const rows = [
  ["sync/journal", "BenchmarkFsync", "ns/op", "fsync probe of this disk, ms", 1e-6],
  ["server", "BenchmarkSyncPush", "changes/s", "sync push over HTTP, 10,000 in batches of 500, changes a second", 1, "≥", 20_000],
  ["server", "BenchmarkSyncOneChange", "ns/op", "one durable change over HTTP, ms", 1e-6],
  ["server", "BenchmarkSyncPull", "records/s", "pull over HTTP, records a second", 1, "≥", 100_000],
  ["sync/journal", "BenchmarkPush10000", "changes/s", "the journal alone: push, changes a second", 1],
  ["sync/journal", "BenchmarkPushTogether", "changes/s", "the journal alone: single changes at once, a second", 1],
  ["sync/journal", "BenchmarkPull10000", "records/s", "the journal alone: pull, records a second", 1],
  ["sync/journal", "BenchmarkOpen100000", "ns/op", "the journal alone: open with 100,000 records, ms", 1e-6],
  ["server", "BenchmarkPhotoUpload", "ns/op", "upload of a 3.6 MB photo over HTTP, ms", 1e-6],
  ["media", "BenchmarkPreviews", "ns/op", "both previews of 12 megapixels, ms", 1e-6, "≤", 300],
  ["server", "BenchmarkServerPreviews", "MB-RssAnon", "server RssAnon while it makes them, MB", 1, "≤", 75],
  ["server", "BenchmarkServerMemory", "MB-at-rest", "server RssAnon at rest with 100,000 records, MB", 1, "≤", 64],
  ["server", "BenchmarkServerMemory", "MB-while-pulled", "server RssAnon while 100,000 records are pulled, MB", 1, "≤", 64],
  ["server", "BenchmarkServerStart", "ns/op", "start with 100,000 records, ms", 1e-6],
  ["almanac/assess", "BenchmarkAssess", "ns/op", "assess 500 plantings over 5 years natively, ms", 1e-6, "≤", 100],
  ["almanac/assess", "BenchmarkWorth/July", "ns/op", "then what a look at each is worth, ms", 1e-6, "≤", 100],
  ["almanac/assess", "BenchmarkWorth/April", "ns/op", "the same in April, ms", 1e-6, "≤", 100],
  ["pwa/wasm", "BenchmarkAssessInWebAssembly", "ms/load", "WebAssembly: load all their records, ms", 1],
  ["pwa/wasm", "BenchmarkAssessInWebAssembly", "ms/assess", "WebAssembly: assess them, ms", 1],
  ["pwa/wasm", "BenchmarkAssessInWebAssembly", "ms/worth", "WebAssembly: then what a look at each is worth, ms", 1],
  ["almanac/sun", "BenchmarkYearOfSun", "ns/op", "a year of sun hours for 200 points among 100 structures, ms", 1e-6, "≤", 1000],
  ["almanac/verbs", "BenchmarkVerbWorst", "s/worst", "the slowest verb on awkward inputs of up to 1 MB, s", 1, "≤", 1],
];

// measurements runs benchmarks and gives what each reports, by name and unit.
function measurements(folder, pattern, times, limit) {
  const out = execFileSync("go", ["test", `./${folder}`, "-run", "^$", "-bench", pattern, "-benchtime", times, "-timeout", limit],
    { encoding: "utf8", stdio: ["ignore", "pipe", "inherit"], maxBuffer: 2 ** 24 });
  const found = new Map();
  for (const line of out.split("\n")) {
    const [name, , ...pairs] = line.trim().split(/\s+/);
    if (!name.startsWith("Benchmark")) continue;
    for (let i = 0; i + 1 < pairs.length; i += 2) found.set(`${name.replace(/-\d+$/, "")} ${pairs[i + 1]}`, Number(pairs[i]));
  }
  return found;
}

// slow are the folders whose benchmarks take minutes a round.
const slow = ["almanac/verbs"];

function measure(folder) {
  const names = [...new Set(rows.filter(([where]) => where === folder).map(([, name]) => name.split("/")[0]))];
  return measurements(folder, `^(${names.join("|")})$`, slow.includes(folder) ? "1x" : "3x", "30m");
}

const figure = (x) => (x >= 100 ? Math.round(x).toLocaleString("en") : x.toPrecision(3));

function row(words, value, sense, aim) {
  const ratio = aim === undefined ? "" : figure(sense === "≥" ? value / aim : aim / value);
  console.log(`| ${words} | ${figure(value)} | ${aim === undefined ? "" : `${sense} ${aim.toLocaleString("en")}`} | ${ratio} |`);
}

// What the page asks for before its first screen: index.html, and every script and
// style that it names or that those import at once.
function firstDownload() {
  const seen = new Set(["index.html"]);
  const named = /(?:(?:src|href)="\/|(?:from|import)\s*["'`]\.\/)([^"'`]+\.(?:js|css))["'`]/g;
  for (const name of seen) {
    const folder = name.includes("/") ? `${path.dirname(name)}/` : "";
    for (const [, found] of readFileSync(`pwa/dist/${name}`, "utf8").matchAll(named)) seen.add(folder + found);
  }
  return seen;
}

const weight = (name) => statSync([`pwa/dist/${name}.br`, `pwa/dist/${name}`].find(existsSync)).size / 1000;
const together = (names) => [...names].reduce((sum, name) => sum + weight(name), 0);
const laterScripts = (first) => readdirSync("pwa/dist/assets").map((name) => `assets/${name}`).filter((name) => /\.(js|css)$/.test(name) && !first.has(name));

console.log(`${os.cpus().length} cores of ${os.cpus()[0].model}, ${Math.round(os.totalmem() / 2 ** 30)} GiB, ${os.type()} ${os.release()}, load ${os.loadavg()[0].toFixed(2)} at the start\n`);
async function speeds() {
  console.log("| what | measured | aim | ratio |\n|---|---|---|---|");
  const folders = [...new Set(rows.map(([folder]) => folder))];
  const found = new Map(folders.map((folder) => [folder, measure(folder)]));
  for (const [folder, name, unit, words, factor, sense, aim] of rows) {
    const value = found.get(folder).get(`${name} ${unit}`);
    if (value === undefined) throw new Error(`${name} in ${folder} did not report ${unit}`);
    row(words, value * factor, sense, aim);
  }
  row("first download of script and style, kB compressed", together(firstDownload()), "≤", 150);
  row("script and style fetched after the first screen, kB compressed", together(laterScripts(firstDownload())));
  row("typefaces, kB", together(readdirSync("pwa/dist/assets").filter((name) => name.endsWith(".woff2")).map((name) => `assets/${name}`)));
  row("the catalogue of kinds, kB compressed", weight("catalogue.json"));
  row("the almanac's WebAssembly, kB compressed, after the first screen", statSync("pwa/dist/almanac.wasm.br").size / 1000);
  for (const { words, value, aim } of await phoneSpeeds()) row(words, value, "≤", aim);
}

// skill tells, for each kind of garden, the share of truly late plants named before
// 30 days after they flower, the median days from a plant's own expected day to
// being named, and false alarms in a hundred healthy plant-seasons.
function skill() {
  const found = measurements("almanac/simulate/skill", "^BenchmarkSkill$", "1x", "4h");
  const scenarios = [...new Set([...found.keys()].map((key) => key.split(/[/ ]/)[1]))].filter((name) => name !== "rounds");
  const told = (scenario, unit, digits = 1) => found.get(`BenchmarkSkill/${scenario} ${unit}`)?.toFixed(digits) ?? "";
  const judge = (scenario, name) => [told(scenario, `${name}-named-%`), told(scenario, `${name}-days`), told(scenario, `${name}-false/100`, 2)].join(" / ");
  const shares = ["band", "band-after", "how-late", "at-least", "season-1sd", "season-2sd"];
  console.log("\n| gardens | haulm: named % / days / false per 100 | notebook | oracle | 80 % band holds: before, after | how late: 80 % band, at least | season within 1, 2 sd |\n|---|---|---|---|---|---|---|");
  for (const scenario of scenarios) {
    const held = shares.map((share) => told(scenario, `haulm-${share}-%`));
    console.log(`| ${scenario} | ${["haulm", "notebook", "oracle"].map((name) => judge(scenario, name)).join(" | ")} | ${held.slice(0, 2).join(", ")} | ${held.slice(2, 4).join(", ")} | ${held.slice(4).join(", ")} |`);
  }
  console.log("\n| weekly rounds with time for one planting in ten, which are chosen | late plants named % / days / false per 100 | looks in a season |\n|---|---|---|");
  for (const [name, words] of [["worth", "where a look settles most"], ["while", "the same, and home when it settles less than 0.02 bits"], ["findings", "where something is found, then in turn"], ["turn", "in turn"], ["random", "at random"]])
    console.log(`| ${words} | ${judge("rounds", name)} | ${told("rounds", `${name}-looks`, 0)} |`);
  console.log(`\nstruggling plants named within the season: ${told("struggling", "haulm-struggling-named-%")} %, ${told("struggling", "haulm-struggling-false/100", 2)} false alarms per hundred healthy; plants that show no flower in a year, named: ${told("blind-plants", "haulm-blind-named-%")} %`);
}

const [only] = process.argv.slice(2);
if (only !== "skill") await speeds();
if (only !== "speed") skill();
