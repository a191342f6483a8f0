// No violation of the rules axe-core knows, in every state, both schemes, narrow and wide; what is spoken.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { test } from "node:test";
import { fresh, play, press, settled, typeEnd } from "./driver.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/**
 * @param {import("puppeteer-core").Page} page
 * @param {string} state
 */
async function check(page, state) {
  const found = await page.evaluate(async () => {
    const { violations } = await Reflect.get(window, "axe").run(document);
    return violations.flatMap((/** @type {any} */ rule) =>
      rule.nodes.map(
        (/** @type {any} */ node) => rule.id + ": " + node.target.join(" ") + " " + node.failureSummary,
      ),
    );
  });
  assert.deepEqual(found, [], state);
}

for (const scheme of ["light", "dark"]) {
  for (const width of [360, 1400]) {
    test(`${scheme}, ${width} px`, async () => {
      const before = (/** @type {import("puppeteer-core").Page} */ page) =>
        page.evaluateOnNewDocument(axe).then(() => undefined);
      const { page } = await fresh({ scheme, width, before });
      await check(page, "first");
      await page.click(".first-start .main");
      await page.waitForSelector(".bar-row");
      await check(page, "own bar");
      await play(page);
      await page.click("#more-rails");
      await check(page, "at rest");
      await press(page, "#rooms", "Swap");
      await page.waitForSelector("#swap .slice button");
      await page.click("#swap .slice button");
      await page.waitForSelector("#swap .felts");
      await check(page, "swap");
      await press(page, "#rooms", "Look around");
      await page.waitForSelector("#explore .curve");
      await page.click("#explore .point");
      await check(page, "look around");
      await press(page, "#rooms", "Bench");
      await typeEnd(page, "hardness", "low", "24");
      await settled(page, "nothing");
      await check(page, "nothing fits");
      await press(page, "#tools", "Files");
      await page.waitForSelector("dialog[open]");
      await check(page, "files");
    });
  }
}

test("targets are large enough: 24 px everywhere, 44 for a finger", async () => {
  for (const touch of [false, true]) {
    const { page } = await fresh({ touch, width: touch ? 360 : 1400 });
    await play(page);
    const least = touch ? 43.9 : 24;
    const small = await page.$$eval(
      ".rail button, .rail .figure, .slider",
      (all, atLeast) =>
        all
          .filter((at) => at.getClientRects().length > 0)
          .map((at) => at.getBoundingClientRect())
          .filter((box) => box.height < atLeast || box.width < atLeast).length,
      least,
    );
    assert.equal(small, 0);
  }
});
