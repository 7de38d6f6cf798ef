// Labels come out of the browser's own print at their true size: as many pages as
// sheets, and none is cut.
import assert from "node:assert/strict";
import { test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { go, openDemo } from "./support/people.mjs";
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
