import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { cautionTexts } from "./caution-texts";
import { languages } from "./language";

type Cautioned = { cautions: { words: string }[] };
const { kinds } = JSON.parse(readFileSync(join(import.meta.dirname, "../../../garden/catalogue.json"), "utf8")) as { kinds: Cautioned[] };
const sentences = [...new Set(kinds.flatMap(({ cautions }) => cautions.map(({ words }) => words)))].sort();

describe.each(languages.filter((language) => language !== "en"))("the cautions in %s", (language) => {
  it("are all there, and none of what the catalogue no longer says", async () => {
    expect(sentences.length).toBeGreaterThan(100);
    expect(Object.keys(await cautionTexts(language)).sort()).toEqual(sentences);
  });

  it("are no English", async () => {
    const same = Object.entries(await cautionTexts(language)).filter(([english, text]) => text.trim() === "" || text === english);
    expect(same).toEqual([]);
  });
});

it("stand in English in the catalogue itself", async () => expect(await cautionTexts("en")).toEqual({}));
