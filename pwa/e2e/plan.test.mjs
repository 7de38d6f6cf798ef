// The plan as people use it: what is placed is drawn and named without names lying
// over each other, a tap or a key chooses, buttons alone bring it nearer, and the
// table beside it tells the same.
import assert from "node:assert/strict";
import { test } from "node:test";
import { deskSize, patience, Phone, phoneSize } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { go, join, openDemo, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };

async function withPhone(options, size, use) {
  const server = await (await Server.make(options)).start();
  const phone = new Phone(server.address, { size });
  try {
    await use(phone, server);
    phone.behaved();
  } finally {
    await phone.remove();
    await server.remove();
  }
}

async function openPlan(phone) {
  const page = await openDemo(phone);
  await page.getByRole("link", { name: "Plan", exact: true }).click();
  await page.locator(".pane svg .planting").first().waitFor(visible);
  return page;
}

/** Pairs of names on the drawing whose boxes overlap by more than a letter's edge. */
const overlaps = (page) => page.evaluate(() => {
  const boxes = [...document.querySelectorAll(".pane text")].map((text) => ({ words: text.textContent, box: text.getBoundingClientRect() }));
  const over = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 2 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 6;
  return boxes.flatMap((a, i) => boxes.slice(i + 1).filter((b) => over(a.box, b.box)).map((b) => `${a.words} over ${b.words}`));
});

const names = (page) => page.locator(".pane text").allTextContents();
const chosen = (page) => page.getByRole("status");

for (const [name, size] of Object.entries({ phone: phoneSize, desk: deskSize })) {
  test(`names on the plan never lie over each other, from far and near, on a ${name}`, () =>
    withPhone({ demo: true }, size, async (phone) => {
      const page = await openPlan(phone);
      for (const bed of ["the whole garden", "Long border", "Under the maple"]) {
        await page.getByRole("combobox").selectOption({ label: bed });
        await page.waitForFunction(() => document.querySelector(".pane text"));
        assert.deepEqual(await overlaps(page), [], bed);
        assert.ok((await names(page)).some((text) => text === "Long border"), `beds are named: ${bed}`);
      }
      assert.ok((await names(page)).some((text) => /^\p{Lu}\p{L}+ \p{Ll}+/u.test(text)), "names of plants are written when it is near");
      const sizes = await page.locator(".pane text").evaluateAll((texts) => texts.map((text) => Number.parseFloat(getComputedStyle(text).fontSize)));
      assert.ok(Math.min(...sizes) >= 10.5, `the smallest lettering is ${Math.min(...sizes)} px`);
    }));
}

test("a tap chooses the planting under it, then its bed; the line tells its name and leads to it", () =>
  withPhone({ demo: true }, phoneSize, async (phone) => {
    const page = await openPlan(phone);
    await page.getByRole("combobox").selectOption({ label: "Apple slope" });
    const spot = page.getByRole("button", { name: "Hamamelis mollis" });
    const box = await spot.boundingBox();
    await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
    await see(page, "Hamamelis mollis", chosen(page));
    const corner = await page.locator('[data-choice="bed/apple"]').boundingBox();
    await page.touchscreen.tap(corner.x + corner.width / 2 + 10, corner.y + corner.height / 2 + 10);
    await see(page, "Apple slope", chosen(page));
    await see(page, /6 plantings/, chosen(page));
    await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
    await chosen(page).getByRole("link").click();
    await page.waitForURL(/\/planting\//, patience);
    await see(page, "Hamamelis mollis", page.locator("h1"));
  }));

test("the keyboard alone goes from planting to planting, brings it nearer and opens one", () =>
  withPhone({ demo: true }, deskSize, async (phone) => {
    const page = await openPlan(phone);
    const scale = () => page.locator(".pane svg").first().getAttribute("width").then(Number);
    const from = await scale();
    await page.getByRole("button", { name: "Nearer" }).focus();
    await page.keyboard.press("Enter");
    await page.waitForFunction((width) => Number(document.querySelector(".pane svg").getAttribute("width")) > width, from, patience);
    await page.locator('.pane [role="button"][tabindex="0"]').focus();
    const met = new Set();
    for (const key of ["End", "ArrowLeft", "ArrowUp", "ArrowRight", "ArrowUp", "Home"]) {
      await page.keyboard.press(key);
      met.add(await chosen(page).innerText());
    }
    assert.ok(met.size >= 4, `the arrows went to ${[...met]}`);
    assert.equal(await page.locator('.pane [role="button"][tabindex="0"]').count(), 1, "one stop of the tab key");
  }));

test("the table has every planting with its number, and a number shows it on the plan", () =>
  withPhone({ demo: true }, phoneSize, async (phone) => {
    const page = await openPlan(phone);
    const rows = page.locator("tbody").filter({ has: page.locator("button") }).locator("tr");
    assert.equal(await rows.count(), await page.locator(".pane svg .planting").count());
    const row = rows.filter({ hasText: "Choisya ternata" });
    assert.match(await row.innerText(), /9.6 m across, 13.5 m up/);
    await row.getByRole("button").click();
    await see(page, "Choisya ternata", chosen(page));
  }));

test("a bed without an outline is listed with what is in it, and nothing is drawn at an invented place", () =>
  withPhone({}, phoneSize, async (phone, server) => {
    const { keeper } = await plantedGarden(server, 3);
    await keeper.write(["bed/square", { name: "Square bed", order: 2, outline: [[0, 0], [3, 0], [3, 2], [0, 2]] }],
      ["planting/loose", { kind: "iris-sibirica", bed: "square", count: 1 }], ["planting/placed", { kind: "iris-sibirica", bed: "square", at: [1, 1] }]);
    const page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
    await go(page, "/plan");
    await see(page, "Long border");
    await see(page, "Not drawn: it has no length and width yet.");
    await page.locator(".pane svg .planting").first().waitFor(visible);
    assert.equal(await page.locator(".pane svg .planting").count(), 1);
    assert.equal(await page.getByText("no place on the plan yet").count(), 4);
  }));

test("an empty garden says what to do", () =>
  withPhone({}, phoneSize, async (phone, server) => {
    const page = await join(phone, server.joinLink, "kitchen phone", "Ada");
    await go(page, "/plan");
    await see(page, /^Nothing is drawn yet/);
    await page.getByRole("link", { name: "Beds: name, size, soil" }).click();
    await see(page, "Beds");
  }));
