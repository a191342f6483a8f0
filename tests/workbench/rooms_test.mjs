// The rooms beside the bench: a butter struck out of a recipe, and a look around before money is spent.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fresh, play, press, settled, textOf } from "./driver.mjs";

test("a costly butter is struck out, some of it may stay, and the new recipe is kept", async () => {
  const { page, faults } = await fresh();
  await play(page);
  await press(page, "#rooms", "Swap");
  await page.waitForSelector("#swap .slice");
  await page.select("#swap-recipe", "fireside-bar.yaml");
  await page.waitForSelector('#swap .slice[data-oil="mango butter"] button');
  await page.click('#swap .slice[data-oil="mango butter"] button');
  await page.waitForSelector("#swap .felts");
  const loaves = () =>
    page.$$eval("#swap .loaf", (all) => all.map((at) => /** @type {HTMLElement} */ (at).innerText));
  const [, without] = await loaves();
  assert.doesNotMatch(without, /mango/);
  assert.match(await textOf(page, "#swap"), /Saved: \d/);
  await page.focus("#swap .plain-slider");
  for (let share = 0; share < 4; share++) await page.keyboard.press("ArrowRight");
  assert.match(await textOf(page, "#swap .stay"), /^Of mango butter at most 4 % stays/);
  await page.waitForFunction(() =>
    /near/.test(document.querySelector("#swap .room-says")?.textContent ?? ""),
  );
  await press(page, "#swap", "Keep as a recipe of its own");
  await page.waitForFunction(() =>
    document.querySelector("#swap .room-says")?.textContent?.includes("fireside-bar-new.yaml"),
  );
  await press(page, "#rooms", "Bench");
  await settled(page, "rest");
  assert.match(await textOf(page, "#saved-state"), /^not saved since/);
  assert.deepEqual(faults, []);
});

test("a look around: what to buy, other blends, and a point of the curve laid out", async () => {
  const { page, faults } = await fresh();
  await play(page);
  await press(page, "#rooms", "Look around");
  await page.waitForSelector("#explore .curve");
  assert.match(await textOf(page, "#explore"), /What to buy/);
  assert.ok((await page.$$eval("#explore .others li", (all) => all.length)) > 0);
  await page.click("#explore .point");
  assert.ok((await page.$$eval("#explore .chosen .slice", (all) => all.length)) > 0);
  assert.equal(await page.$eval("#explore .point", (at) => at.getAttribute("aria-pressed")), "true");
  await press(page, "#rooms", "Bench");
  await settled(page, "rest");
  assert.deepEqual(faults, []);
});
