// A wish is pulled: the dot is hollow and the grams are gone until it is let go; one pull is one step back.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fresh, grip, play, settled, textOf, typeEnd } from "./driver.mjs";

/** @param {import("puppeteer-core").Page} page */
async function whileHeld(page) {
  assert.equal(
    await page.$$eval("#weigh-body table", (found) => found.length),
    0,
    "grams stand while it is pulled",
  );
  assert.equal(await page.$eval("#print", (at) => /** @type {HTMLButtonElement} */ (at).disabled), true);
  assert.equal(await page.$$eval(".dot:not(.hollow):not([hidden])", (found) => found.length), 0);
}

test("by the mouse", async () => {
  const { page, faults } = await fresh();
  await play(page);
  const before = await textOf(page, "#weigh-body");
  const from = await grip(page, "hardness", "low");
  const to = await grip(page, "hardness", "low", 8);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (let part = 1; part <= 10; part++) {
    await page.mouse.move(from.x + ((to.x - from.x) * part) / 10, from.y);
  }
  await page.waitForFunction(() => document.body.dataset.held === "true");
  await whileHeld(page);
  await page.mouse.up();
  await settled(page, "rest");
  assert.equal(await textOf(page, '[data-rail="hardness"] .rail-wish'), "at least 8 points above");
  assert.notEqual(await textOf(page, "#weigh-body"), "");
  await page.keyboard.down("Control");
  await page.keyboard.press("z");
  await page.keyboard.up("Control");
  await settled(page, "rest");
  assert.equal(await textOf(page, '[data-rail="hardness"] .rail-wish'), "at least 5 points above");
  assert.equal(await textOf(page, "#weigh-body"), before);
  assert.equal(await textOf(page, "#saved-state"), "as it came");
  assert.deepEqual(faults, []);
});

test("by touch, while the page still scrolls up and down over it", async () => {
  const { page } = await fresh({ width: 360, height: 780, touch: true });
  await page.tap("#play");
  await settled(page, "rest");
  const from = await grip(page, "hardness", "low");
  const to = await grip(page, "hardness", "low", 7);
  const touch = await page.touchscreen.touchStart(from.x, from.y);
  for (let part = 1; part <= 8; part++) await touch.move(from.x + 10 * part, from.y);
  for (let part = 7; part >= 0; part--) await touch.move(to.x + 10 * part, from.y);
  await page.waitForFunction(() => document.body.dataset.held === "true");
  await whileHeld(page);
  await touch.end();
  await settled(page, "rest");
  assert.equal(await textOf(page, '[data-rail="hardness"] .rail-wish'), "at least 7 points above");
  const action = await page.$eval(".slider", (at) => getComputedStyle(at).touchAction);
  assert.equal(action, "pan-y");
});

test("by figure, by button and by arrow key, each with its phrase spoken", async () => {
  const { page } = await fresh();
  await play(page);
  await typeEnd(page, "lather", "low", "-5");
  await settled(page, "rest");
  const spoken = () =>
    page.$eval('[data-rail="lather"] .slider.low', (at) => at.getAttribute("aria-valuetext"));
  assert.equal(await spoken(), "no more than 5 points below");
  await page.click('[data-rail="lather"] .end.low button:last-of-type');
  await settled(page, "rest");
  assert.equal(await spoken(), "no less");
  await page.focus('[data-rail="lather"] .slider.low');
  await page.keyboard.press("ArrowLeft");
  await settled(page, "rest");
  assert.equal(await spoken(), "no more than 1 point below");
  await page.keyboard.press("Home");
  await settled(page, "rest");
  assert.equal(await spoken(), "no floor");
  assert.equal(await textOf(page, '[data-rail="lather"] .rail-wish'), "no wish");
  assert.match(await textOf(page, "#spoken"), /^Found: .*Superfat at worst/);
});

test("what is no figure is refused beside the field", async () => {
  const { page } = await fresh();
  await play(page);
  await typeEnd(page, "hardness", "low", "5,5");
  assert.match(await textOf(page, '[data-rail="hardness"] .rail-fault'), /point/);
  assert.equal(await textOf(page, '[data-rail="hardness"] .rail-wish'), "at least 5 points above");
});

test("a reply does not write over what is being typed", async () => {
  const { page } = await fresh();
  await play(page);
  const field = '[data-rail="hardness"] .end.low .figure';
  await page.click(field, { count: 3 });
  await page.keyboard.type("1");
  await page.$eval("#aim-choice", (at) => {
    /** @type {HTMLSelectElement} */ (at).value = "most lather";
    at.dispatchEvent(new Event("change")); // replies come in while the cursor stays
  });
  await settled(page, "rest");
  await page.keyboard.type("0");
  assert.equal(await page.$eval(field, (at) => /** @type {HTMLInputElement} */ (at).value), "10");
});
