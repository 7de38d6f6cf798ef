// All that people read stands in messages/*.json. Here every text of a template, every
// attribute that is read out, and every sentence in a script is looked for outside it.

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "svelte/compiler";
import ts from "typescript";
import { expect, it } from "vitest";

const source = join(import.meta.dirname, "..");
const files = readdirSync(source, { recursive: true, encoding: "utf8" }).filter((name) => !name.startsWith("paraglide"));
const readOut = new Set(["aria-label", "aria-description", "aria-roledescription", "aria-valuetext", "title", "placeholder", "alt", "label", "words"]);
const letters = /\p{L}{2}/u;
const nameOfTheApp = "Haulm";

/** Words with a stop at the end, as only people read them. */
const sentence = /^\p{Lu}\p{L}*[,’]?\s.*\p{L}[.?]$/su;

type Node = { type?: string; name?: string; data?: string; value?: unknown };

function isText(text: string | undefined): text is string {
  return text !== undefined && letters.test(text.replaceAll(/&\w+;/gu, "")) && text.trim() !== nameOfTheApp;
}

/** The texts of a template that are written in it. */
function writtenIn(node: unknown, found: string[] = []): string[] {
  if (Array.isArray(node)) for (const each of node) writtenIn(each, found);
  else if (node !== null && typeof node === "object") within(node as Node, found);
  return found;
}

function within(node: Node, found: string[]): void {
  // Other attributes are read by no one, but what they are given may hold sentences.
  const unread = (node.type === "Attribute" && !readOut.has(node.name ?? "")) || node.type === "StyleDirective";
  if (unread) return void writtenIn([node.value].flat().filter((part) => (part as Node | null)?.type !== "Text"), found);
  if (node.type === "Text" && isText(node.data)) found.push(node.data.trim());
  if (node.type === "Literal" && typeof node.value === "string" && sentence.test(node.value)) found.push(node.value);
  for (const [key, child] of Object.entries(node)) if (key !== "parent") writtenIn(child, found);
}

/** The sentences in a script, apart from what an error says to whoever mends the app. */
function sentencesIn(name: string, text: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isNewExpression(node) && /Error$|Trouble$/u.test(node.expression.getText())) return;
    if (ts.isStringLiteralLike(node) && sentence.test(node.text)) found.push(node.text);
    if (ts.isTemplateExpression(node) && sentence.test(node.getText().slice(1, -1))) found.push(node.getText());
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true));
  return found;
}

function outsideCatalogue(name: string, text: string): string[] {
  if (!name.endsWith(".svelte")) return sentencesIn(name, text);
  const { fragment, instance, module } = parse(text, { modern: true });
  const scripts = [instance, module].flatMap((script) => (script ? sentencesIn(`${name}.ts`, text.slice(script.start, script.end).replaceAll(/<\/?script[^>]*>/gu, "")) : []));
  return [...writtenIn(fragment), ...scripts];
}

it("finds what is written in a template or a script", () => {
  expect(outsideCatalogue("X.svelte", "<p>Late <b aria-label='in flower' style:width='{wide}mm' data-x={late ? 'It is late.' : ''}>{m.x()}</b></p>")).toEqual(["Late", "in flower", "It is late."]);
  expect(outsideCatalogue("X.svelte", "<p>{m.x()} · <a href='/about' class='of a kind'>{name}</a></p>")).toEqual([]);
  expect(outsideCatalogue("x.ts", 'say("The bed is dry."); key("bed.dry"); throw new Error("This never is.");')).toEqual(["The bed is dry."]);
});

it("nothing that people read stands outside the catalogue", () => {
  const read = files.filter((name) => /\.(svelte|ts)$/u.test(name) && !/(\.test\.ts|\.d\.ts|fake-server\.ts)$/u.test(name));
  const found = read.flatMap((name) => outsideCatalogue(name, readFileSync(join(source, name), "utf8")).map((text) => `${name}: ${text}`));
  expect(found).toEqual([]);
});
