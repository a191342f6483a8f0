// Pictures of every state to be looked at, run by hand: FORM=file PAGE=... node pictures.mjs FOLDER
// Each at 360, 800 and 1400 px, light and dark: FOLDER/STATE-WIDTH-SCHEME.png
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { fresh, grip, play, press, settled, typeEnd } from "./driver.mjs";

const folder = process.argv[2] ?? "pictures";

for (const scheme of ["light", "dark"]) {
  for (const width of [360, 800, 1400]) {
    test(`${scheme}, ${width} px`, async () => {
      await mkdir(folder, { recursive: true });
      const { page } = await fresh({ scheme, width, height: width < 500 ? 780 : 900 });
      const take = (/** @type {string} */ state, fullPage = true) =>
        page.screenshot({
          path: /** @type {`${string}.png`} */ (join(folder, `${state}-${width}-${scheme}.png`)),
          fullPage,
        });
      const top = () => page.evaluate(() => window.scrollTo(0, 0));
      await page.click(".first-start .main");
      await page.waitForSelector(".bar-row");
      await top();
      await take("1-first");
      await play(page);
      await page.waitForFunction(() => document.querySelector(".reach:not([hidden]):not(.old)"));
      await take("2-rest", false);
      await take("5-weighed");
      const from = await grip(page, "hardness", "low");
      const to = await grip(page, "hardness", "low", 9);
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      for (let part = 1; part <= 10; part++)
        await page.mouse.move(from.x + ((to.x - from.x) * part) / 10, from.y);
      await page.waitForFunction(() => document.body.dataset.asked === document.body.dataset.answers);
      await top();
      await take("3-pulling", false);
      await page.mouse.up();
      await settled(page, "rest", "nothing");
      await typeEnd(page, "hardness", "low", "24");
      await settled(page, "nothing");
      await top();
      await take("4-nothing");
      await press(page, "#rooms", "Swap");
      await page.waitForSelector("#swap .slice button");
      await page.click("#swap .slice button");
      await page.waitForSelector("#swap .felts");
      await take("6-swap");
      await press(page, "#rooms", "Look around");
      await page.waitForSelector("#explore .point");
      await page.click("#explore .point");
      await take("7-around");
    });
  }
}
