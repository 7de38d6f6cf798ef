// A round by the keyboard alone: begun, passed, taken back, noted to the end of a bed.
import assert from "node:assert/strict";
import { test } from "node:test";
import { patience } from "./support/browser.mjs";
import { late } from "./support/demo.mjs";
import { demoAtDesk } from "./support/desk.mjs";
import { go, savedRows, see } from "./support/people.mjs";

const visible = { state: "visible", ...patience };
const gone = { state: "detached", ...patience };

let phone, page, keys;

demoAtDesk((desk) => ({ phone, page, keys } = desk));

const button = (name) => page.getByRole("button", { name, exact: typeof name === "string" });
const stop = () => new URL(page.url()).pathname;

/** Goes on by a button of a stop and comes to the next one. */
async function onward(name) {
  const from = stop();
  await keys.on(button(name));
  await page.waitForURL((url) => url.pathname !== from, patience);
  await keys.arrive(/^\/round\/.+/);
}

test("a round is begun, a stop passed with nothing to note, and that taken back", (t) =>
  keys.within(29, async () => {
    await keys.section("Round", "/round");
    await keys.on(page.getByRole("link", { name: /^Walk the \d+ worth a look/ }));
    await keys.arrive(/^\/round\/.+/);
    await onward("Nothing to note");
    await see(page, /nothing to note/);
    await keys.on(button("undo"));
    await button("undo").waitFor(gone);
    await onward(/^Next: /);
  }, (words) => t.diagnostic(words)));

test("at a stop what is seen is noted, and one goes on", (t) =>
  keys.within(40, async () => {
    await keys.on(button("good"), "Space");
    await savedRows(page, 1);
    assert.equal(await button("good").getAttribute("aria-pressed"), "true");
    await onward(/^Next: /);
  }, (words) => t.diagnostic(words)));

test("the rest of a bed is noted, and taken back", async (t) => {
  await go(page, `/round/${late.id}`);
  await keys.arrive(`/round/${late.id}`);
  await keys.within(30, async () => {
    const rest = page.getByRole("group", { name: "The rest of Long border" });
    const nothing = rest.getByRole("button", { name: /^The other(?: \d+)?: nothing to note$/ });
    await keys.on(nothing);
    await see(rest, /^\d+ noted$/);
    await keys.on(rest.getByRole("button", { name: /^undo/ }));
    await nothing.waitFor(visible);
  }, (words) => t.diagnostic(words));
  phone.behaved();
});
