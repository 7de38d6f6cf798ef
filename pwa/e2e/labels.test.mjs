// Labels come out of the browser's own print at their true size: as many pages as
// sheets, and none is cut.
import assert from "node:assert/strict";
import { test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { allSent, go, join, openDemo, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const POINTS_PER_MM = 72 / 25.4;

test("a print at 100 % has the chosen paper and a page for each sheet", async () => {
  const server = await (await Server.make({ demo: true })).start();
  const phone = new Phone(server.address);
  try {
    const page = await openDemo(phone);
    await go(page, "/labels");
    await page.locator(".sheet li svg").first().waitFor({ state: "visible", ...patience });
    for (const [paper, wide, high] of [["A4", 210, 297], ["US Letter", 215.9, 279.4]]) {
      await page.getByLabel("Paper").selectOption({ label: paper });
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
      const boxes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)/g)];
      assert.equal(boxes.length, await page.locator(".sheet").count(), paper);
      for (const [, x, y] of boxes) assert.ok(Math.abs(x - wide * POINTS_PER_MM) < 1 && Math.abs(y - high * POINTS_PER_MM) < 1, `${paper}: ${x} × ${y} points`);
    }
    phone.behaved();
  } finally {
    await phone.remove();
    await server.remove();
  }
});

/** Labels of which something stands outside its cut. */
const cut = (page) => page.locator(".sheet li").evaluateAll((labels) => labels.filter((label) => {
  const { left, right, top, bottom } = label.getBoundingClientRect();
  return [...label.querySelectorAll("svg, span, p")].some((one) => {
    const box = one.getBoundingClientRect();
    return box.left < left - 1 || box.right > right + 1 || box.top < top - 1 || box.bottom > bottom + 1;
  });
}).map((label) => label.textContent.trim().slice(0, 60)));

test("no name is cut, however long, on any size; an address of this machine is warned of", async () => {
  const server = await (await Server.make()).start();
  const phone = new Phone(server.address);
  try {
    const { keeper } = await plantedGarden(server, 3);
    await keeper.write(["planting/long", { label: "Rosa ‘Souvenir du Docteur Jamain’ from the old garden behind the church, moved twice and still with us", bed: "long" }],
      ["planting/word", { label: "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch", bed: "long" }]);
    const page = await join(phone, await keeper.invite("keeper"), "kitchen phone", "Bo");
    await go(page, "/labels");
    await see(page, /which opens on this machine alone/);
    for (const size of ["stake", "tie-on tag", "bed sign"]) {
      const select = page.getByLabel("Size of a label");
      await select.selectOption(await select.locator("option", { hasText: size }).getAttribute("value"));
      await page.locator(".sheet li svg").first().waitFor({ state: "visible", ...patience });
      assert.deepEqual(await cut(page), [], size);
    }
    await page.getByRole("button", { name: "Note them as printed" }).click();
    await see(page, /^saved \d/);
    await page.getByLabel("For which plantings").selectOption("unlabelled");
    assert.equal(await page.locator(".sheet li").count(), 0);
    await page.getByRole("button", { name: /^undo/ }).click();
    await page.waitForFunction(() => document.querySelectorAll(".sheet li").length === 5, null, patience);
    await page.getByRole("button", { name: "Note them as printed" }).click();
    await allSent(page);
    const labelled = [...(await keeper.pull()).values()].filter(({ fields }) => fields?.labelled);
    assert.equal(labelled.length, 5);
    phone.behaved();
  } finally {
    await phone.remove();
    await server.remove();
  }
});

test("other screens print as themselves after the labels were looked at: with their headings and margins, without the bar", async () => {
  const server = await (await Server.make({ demo: true })).start();
  const phone = new Phone(server.address);
  try {
    const page = await openDemo(phone);
    await go(page, "/labels");
    await page.locator(".sheet li svg").first().waitFor({ state: "visible", ...patience });
    await go(page, "/plan");
    await page.locator(".pane .planting").first().waitFor({ state: "visible", ...patience });
    await page.emulateMedia({ media: "print" });
    assert.ok(await page.locator("main h1").isVisible());
    assert.equal(await page.locator(".dock").isVisible(), false);
    assert.ok(Number.parseFloat(await page.locator("main").evaluate((main) => getComputedStyle(main).paddingLeft)) > 8);
  } finally {
    await phone.remove();
    await server.remove();
  }
});
