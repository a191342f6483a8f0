// Files changed by hand: names that would be markup, names in other scripts and very long ones; a file that
// cannot be read; a rule on one oil.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clickOn, fresh, play, press, settled, textOf, writeFile } from "./driver.mjs";

const names = [
  "<script>window.hit = 1</script><img src=x onerror='window.hit = 2'>",
  `"quoted" 'twice' & so on: \\ {x} [y] #z`,
  "\u05e1\u05d1\u05d5\u05df \u0635\u0627\u0628\u0648\u0646 in text",
  "long".repeat(50),
];

for (const name of names) {
  test("a bar and a brief called " + name.slice(0, 20), async () => {
    const { page, faults } = await fresh({ width: 360 });
    await play(page);
    const yaml = JSON.stringify(name);
    await writeFile(page, "yard-bar.yaml", (text) => text.replace(/^name: .*$/m, () => "name: " + yaml));
    await settled(page, "rest");
    await writeFile(page, "firmer-bar.yaml", (text) => text.replace(/^brief: .*$/m, () => "brief: " + yaml));
    await settled(page, "rest");
    assert.equal(await page.$eval("#hand-name", (at) => at.textContent), name);
    assert.equal(await page.$eval(".weigh-title strong", (at) => at.textContent), name);
    assert.equal(await page.evaluate(() => Reflect.get(window, "hit")), undefined);
    assert.equal(await page.$$eval("main script, main img", (found) => found.length), 0);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    assert.ok(wide <= 0, "the page is wider than the screen by " + wide);
    assert.deepEqual(faults, []);
  });
}

test("a name that turns the direction of writing is refused at its line", async () => {
  const { page } = await fresh();
  await play(page);
  await writeFile(page, "yard-bar.yaml", (text) => text.replace(/^name: .*$/m, () => "name: yard \u202etxet"));
  await settled(page, "trouble");
  assert.match(await textOf(page, "#trouble"), /yard-bar\.yaml, line \d+/);
  assert.equal(await page.$$eval("#weigh-body table", (found) => found.length), 0);
});

test("a file broken by hand: its place is named, nothing is weighed, one step back mends it", async () => {
  const { page } = await fresh();
  await play(page);
  const before = await textOf(page, "#weigh-body");
  await writeFile(page, "firmer-bar.yaml", (text) => text.replace("hardness: at least", "hardnes: at least"));
  await settled(page, "trouble");
  assert.match(await textOf(page, "#trouble"), /firmer-bar\.yaml, line 11/);
  assert.match(await textOf(page, "#trouble"), /hardnes/);
  assert.equal(await page.$$eval("#weigh-body table", (found) => found.length), 0);
  await press(page, "#trouble", "Open the file at this line");
  const marked = await page.$eval("dialog textarea", (at) => {
    const area = /** @type {HTMLTextAreaElement} */ (at);
    return area.value.slice(area.selectionStart, area.selectionEnd);
  });
  assert.match(marked, /hardnes: at least 5/);
  await press(page, "dialog", "Close");
  await press(page, "#tools", "Undo");
  await settled(page, "rest");
  assert.equal(await textOf(page, "#weigh-body"), before);
});

test("a share is pinned by hand, then an oil is left out", async () => {
  const { page } = await fresh();
  await play(page);
  const share = (/** @type {string} */ oil) =>
    page.$$eval(
      "#loaf .slice",
      (all, wanted) =>
        all.find((at) => at.getAttribute("data-oil") === wanted)?.querySelector(".slice-share")?.textContent,
      oil,
    );
  await clickOn(page, '#loaf .slice[data-oil="castor"] button');
  await page.click("dialog .figure", { count: 3 });
  await page.type("dialog .figure", "4");
  await press(page, "dialog", "Pin it at this share");
  await settled(page, "rest");
  assert.equal(await share("castor"), "4\u00a0%");
  assert.match(await textOf(page, "#oil-rules"), /castor is pinned at 4 %/);
  await clickOn(page, '#loaf .slice[data-oil="shea butter"] button');
  await press(page, "dialog", "Leave it out");
  await settled(page, "rest", "nothing");
  assert.match(await textOf(page, "#oil-rules"), /shea butter is left out/);
});

test("weighed in ounces: the engine rounds to such a scale, and back", async () => {
  const { page } = await fresh();
  await play(page);
  const grams = await textOf(page, "#weigh-body");
  await page.select("#weights", "ounces");
  await settled(page, "rest");
  const table = await textOf(page, "#weigh-body table");
  const figures = [...table.matchAll(/(\d+\.\d\d) oz/g)].map(([, figure]) => Number(figure));
  assert.ok(figures.length >= 4);
  assert.doesNotMatch(table, /\d g/);
  for (const ounces of figures)
    assert.equal(Math.round(ounces * 100) % 5, 0, ounces + " is no step of 0.05 oz");
  await page.select("#weights", "grams");
  await settled(page, "rest");
  assert.equal(await textOf(page, "#weigh-body"), grams);
});
