// Every number in the engine's replies is replaced: the screen shows only replaced ones, so that it has no
// arithmetic of its own.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fresh, play, settled, typeEnd } from "./driver.mjs";

/** @param {import("puppeteer-core").Page} page */
async function replaceNumbers(page) {
  await page.evaluateOnNewDocument(() => {
    const read = JSON.parse;
    let next = 5000;
    const given = new Set();
    Object.assign(window, { given });
    const fresh = () => {
      next += 7.31;
      for (const decimals of [0, 1, 2]) given.add(next.toFixed(decimals));
      return next;
    };
    const kept = new Set(["file", "path", "value", "brief_hash", "schema", "line", "column", "unit"]);
    /** @type {(value: unknown, key: string) => unknown} */
    const replaced = (value, key) => {
      if (typeof value === "number") return kept.has(key) && key !== "value" ? value : fresh();
      if (typeof value === "string" && !kept.has(key))
        return value.replace(/\d+(\.\d+)?/g, () => fresh().toFixed(1));
      if (Array.isArray(value)) return value.map((inner) => replaced(inner, key));
      if (value === null || typeof value !== "object") return value;
      return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, replaced(inner, name)]));
    };
    JSON.parse = (text, ...rest) => {
      const value = read(text, ...rest);
      return value?.schema !== undefined ? replaced(value, "") : value;
    };
  });
}

/** @param {import("puppeteer-core").Page} page */
function strays(page) {
  return page.evaluate(() => {
    const given = /** @type {Set<string>} */ (Reflect.get(window, "given"));
    const parts = [...document.querySelectorAll("#bench, #foot, #spoken")];
    const fields = [...document.querySelectorAll("#bench input.figure")];
    const texts = [
      ...parts.map((at) => /** @type {HTMLElement} */ (at).innerText),
      ...fields.map((at) => /** @type {HTMLInputElement} */ (at).value),
      ...[...document.querySelectorAll(".slider")].map((at) => at.getAttribute("aria-valuetext") ?? ""),
    ];
    const shown = texts.flatMap((text) => text.match(/\d+([.,]\d+)?/g) ?? []);
    return { count: shown.length, strays: shown.filter((figure) => !given.has(figure)) };
  });
}

test("at rest", async () => {
  const { page } = await fresh({ before: replaceNumbers });
  await play(page);
  await page.click("#more-rails");
  const found = await strays(page);
  assert.ok(found.count > 60, "only " + found.count + " figures were seen");
  assert.deepEqual(found.strays, []);
});

test("where nothing fits", async () => {
  const { page } = await fresh({ before: replaceNumbers });
  await play(page);
  await typeEnd(page, "hardness", "low", "24");
  await settled(page, "nothing");
  const found = await strays(page);
  assert.ok(found.count > 10, "only " + found.count + " figures were seen");
  assert.deepEqual(found.strays, []);
});
