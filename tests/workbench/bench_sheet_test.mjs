// The bench sheet opens from the weigh-out: a page of its own, with the weights that stand here.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fresh, play, settled, textOf } from "./driver.mjs";

test("the bench sheet of what is weighed out comes down as a page of its own", async () => {
  const { page, faults } = await fresh();
  await play(page);
  await settled(page, "rest");
  await page.evaluate(() => {
    const made = URL.createObjectURL;
    URL.createObjectURL = (blob) => {
      if (blob instanceof Blob) blob.text().then((text) => Object.assign(window, { came: text }));
      return made(blob);
    };
  });
  const grams = await page.$eval("#weigh-body tbody td.strong", (cell) => cell.textContent ?? "");
  await page.click("#bench-sheet");
  await page.waitForFunction(() => "came" in window);
  const html = await page.evaluate(() => String(/** @type {any} */ (window).came));
  assert.match(html, /^<!DOCTYPE html>/);
  assert.match(html, /Alkali INTO water/);
  assert.match(html, /data-key="bar\//);
  assert.ok(html.includes(">" + grams.trim().replace(/\s/g, " ") + "<"), grams);
  assert.match(await textOf(page, "dialog[open]"), /among your downloads: .*-sheet\.html/);
  assert.deepEqual(faults, []);
});
