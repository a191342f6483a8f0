// Nothing fits: the colliding rails are tied, and one press on a way out opens the way.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fresh, play, settled, textOf, typeEnd } from "./driver.mjs";

test("nothing fits, then a way out by one press", async () => {
  const { page, faults } = await fresh();
  await play(page);
  const loaf = await textOf(page, "#loaf .slices");
  await typeEnd(page, "hardness", "low", "24");
  await settled(page, "nothing");
  const tied = await page.$$eval(".rail.collides", (found) =>
    found.map((at) => at.getAttribute("data-rail")),
  );
  assert.ok(tied.includes("hardness"));
  assert.equal(await page.$$eval(".cord .knot", (found) => found.length), tied.length);
  assert.match(await textOf(page, "#loaf .loaf-mark"), /before/i);
  assert.equal(await textOf(page, "#loaf .slices"), loaf);
  assert.equal(await page.$$eval("#weigh-body table", (found) => found.length), 0);
  assert.match(await textOf(page, "#spoken"), /^Nothing fits\. These collide: hardness/);
  await page.click("#state-buttons button");
  assert.ok(await page.evaluate(() => document.activeElement?.matches(".way")));
  await page.keyboard.press("Enter");
  await settled(page, "rest");
  assert.equal(await page.$$eval(".cord", (found) => found.length), 0);
  assert.ok((await page.$$eval("#weigh-body tbody tr", (found) => found.length)) >= 2);
  assert.deepEqual(faults, []);
});
