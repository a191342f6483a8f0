// From the first start to a weighed recipe, by the keyboard alone and by touch.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fresh, press, settled, textOf } from "./driver.mjs";

const shelf = [
  ["olive", "5", "31.00", "5"],
  ["coconut", "5", "21.50", "5"],
  ["castor", "1", "8.70", "1"],
  ["shea butter", "2", "13.20", "1"],
];
const bar = [
  ["olive", "60"],
  ["coconut", "25"],
  ["castor", "15"],
];

/** @param {import("puppeteer-core").Page} page */
async function checkWeighed(page) {
  await settled(page, "rest");
  const rows = await page.$$eval("#weigh-body tbody tr", (lines) =>
    lines.map((line) => line.textContent ?? ""),
  );
  assert.ok(rows.length >= 2);
  for (const row of rows) assert.match(row, /\d\s*g/);
  assert.match(await textOf(page, "#weigh-body .lye"), /sodium hydroxide/);
  assert.match(await textOf(page, "#foot-worst"), /\d %/);
  assert.equal(await page.$eval("#print", (at) => /** @type {HTMLButtonElement} */ (at).disabled), false);
  assert.match(await textOf(page, "#saved-state"), /^not saved since \d\d:\d\d$/);
}

test("by the keyboard alone", async () => {
  const { page, faults } = await fresh();
  const keys = page.keyboard;
  /** @param {string} selector */
  const tabTo = async (selector) => {
    for (let press = 0; press < 60; press++) {
      await keys.press("Tab");
      if (await page.evaluate((wanted) => document.activeElement?.matches(wanted), selector)) return;
    }
    assert.fail("the keyboard does not come to " + selector);
  };
  await tabTo(".first-start .main");
  await keys.press("Enter");
  await page.waitForFunction(() => document.activeElement?.matches(".shelf-row .oil"));
  for (const [at, [oil, have, paid, pack]] of shelf.entries()) {
    if (at >= 3) {
      await tabTo(".step button.quiet:not(.out)");
      await keys.press("Enter");
    } else if (at > 0) {
      await tabTo(".shelf-row .oil");
    }
    await keys.type(oil);
    for (const figure of [have, paid, pack]) {
      await tabTo(".shelf-row .figure");
      await keys.type(figure);
    }
  }
  for (const [oil, share] of bar) {
    await tabTo(".bar-row .oil");
    await keys.type(oil);
    await tabTo(".bar-row .figure");
    await keys.type(share);
  }
  assert.equal(await textOf(page, ".sum"), "together 100 %");
  await tabTo("#bars");
  await tabTo(".steps button[type=submit]");
  await keys.press("Enter");
  await checkWeighed(page);
  assert.deepEqual(faults, []);
});

test("by touch on a narrow screen", async () => {
  const { page, faults } = await fresh({ width: 360, height: 780, touch: true });
  await page.tap(".first-start .main");
  await page.waitForSelector(".bar-row .oil");
  const rows = await page.$$(".bar-row");
  for (const [at, [oil, share]] of bar.entries()) {
    await (await rows[at].$(".oil"))?.tap();
    await page.keyboard.type(oil);
    await (await rows[at].$(".figure"))?.tap();
    await page.keyboard.type(share);
  }
  for (const name of ["hardness", "conditioning"]) {
    await page.tap(`label:has(input[name=${name}][value=""])`);
  }
  await page.click("#bars", { count: 3 });
  await page.type("#bars", "48");
  await page.tap(".steps button[type=submit]");
  await checkWeighed(page);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  assert.ok(wide <= 0, "the page is wider than the screen by " + wide);
  assert.deepEqual(faults, []);
});

test("a figure in the other writing is refused, not guessed", async () => {
  const { page } = await fresh();
  await page.click(".first-start .main");
  await page.waitForSelector(".bar-row .oil");
  await page.type(".bar-row .oil", "olive");
  await page.type(".bar-row .figure", "99,5");
  await page.click(".steps button[type=submit]");
  await page.waitForFunction(() => document.querySelector(".form-fault")?.textContent);
  assert.match(await textOf(page, ".form-fault"), /olive/);
  assert.ok(
    await page.evaluate(() => document.activeElement?.matches(".bar-row .figure[aria-invalid=true]")),
  );
});

test("a comma where it was chosen: on the screen, not in the files", async () => {
  const { page } = await fresh();
  await page.click(".first-start .main");
  await page.waitForSelector(".bar-row .oil");
  await page.select("label.inline select", "comma");
  const rows = await page.$$(".bar-row");
  for (const [at, [oil, share]] of [
    ["olive", "62,5"],
    ["coconut", "25"],
    ["castor", "12,5"],
  ].entries()) {
    await (await rows[at].$(".oil"))?.type(oil);
    await (await rows[at].$(".figure"))?.type(share);
  }
  await page.click("#bars", { count: 3 });
  await page.type("#bars", "48");
  await page.click(".steps button[type=submit]");
  await checkWeighed(page);
  assert.match(await textOf(page, "#weigh-body"), /\d,\d g/);
  assert.doesNotMatch(await textOf(page, "#weigh-body table"), /\d\.\d/);
  await press(page, "#tools", "Files");
  const text = await page.$eval("dialog textarea", (at) => /** @type {HTMLTextAreaElement} */ (at).value);
  assert.match(text, /olive: 62\.5 %/);
});

test("cells of a spreadsheet are pasted", async () => {
  const { page } = await fresh();
  await page.click(".first-start .main");
  await page.waitForSelector(".shelf-row .oil");
  await page.$eval(".shelf-row .oil", (at) => {
    const cells = new DataTransfer();
    const lines = [
      "olive\t5 kg\t31.00\t5 kg",
      "coconut\t2500 g\t21.50\t5",
      "castor\t1\t8.70\t1",
      "lard\t2 lb\t4\t2 lb",
    ];
    cells.setData("text/plain", lines.join("\r\n") + "\r\n");
    at.dispatchEvent(new ClipboardEvent("paste", { clipboardData: cells, cancelable: true, bubbles: true }));
  });
  const rows = await page.$$eval(".shelf-row", (all) =>
    all.map((row) =>
      [...row.querySelectorAll("input, select")]
        .map((at) => /** @type {HTMLInputElement} */ (at).value)
        .join(" "),
    ),
  );
  assert.deepEqual(rows, [
    "olive 5 kg 31.00 5 kg",
    "coconut 2500 g 21.50 5 kg",
    "castor 1 kg 8.70 1 kg",
    "lard 2 lb 4 2 lb",
  ]);
});

test("an oil that is not known is named where it was typed", async () => {
  const { page } = await fresh();
  await page.click(".first-start .main");
  await page.waitForSelector(".bar-row .oil");
  const rows = await page.$$(".bar-row");
  for (const [at, [oil, share]] of [
    ["olive", "60"],
    ["coconutt", "40"],
  ].entries()) {
    await (await rows[at].$(".oil"))?.type(oil);
    await (await rows[at].$(".figure"))?.type(share);
  }
  await page.click(".steps button[type=submit]");
  await page.waitForFunction(() => document.querySelector(".form-fault")?.textContent);
  assert.match(await textOf(page, ".form-fault"), /Did you mean 'coconut'/);
  assert.doesNotMatch(await textOf(page, ".form-fault"), /--from/);
  const focused = await page.evaluate(() => /** @type {HTMLInputElement} */ (document.activeElement).value);
  assert.equal(focused, "coconutt");
});
