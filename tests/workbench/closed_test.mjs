// The page is closed: it runs no script but its own, and the file connects to nothing. Where no script runs at
// all, its first line says what to do.
import assert from "node:assert/strict";
import { test } from "node:test";
import { form, fresh, play } from "./driver.mjs";

test("no script but its own", async () => {
  const { page } = await fresh();
  await play(page);
  const hit = await page.evaluate(async () => {
    const wanted = new Set(["script-src-elem", "img-src"]);
    const refused = new Promise((resolve) => {
      document.addEventListener("securitypolicyviolation", (event) => {
        wanted.delete(event.effectiveDirective);
        if (wanted.size === 0) resolve(undefined);
      });
    });
    const added = document.createElement("script");
    added.textContent = "window.hit = 1";
    document.body.append(added);
    const button = document.createElement("div");
    button.innerHTML = "<b onclick='window.hit = 2'></b>";
    /** @type {HTMLElement} */ (button.firstChild).click();
    const image = document.createElement("img");
    image.src = "http://127.0.0.1:1/x.png";
    document.body.append(image);
    await refused;
    return Reflect.get(window, "hit");
  });
  assert.equal(hit, undefined);
});

test("no connection", { skip: form === "file" ? false : "the served page talks to its server" }, async () => {
  const { page } = await fresh();
  const told = await page.evaluate(async () => {
    /** @type {Promise<string>} */
    const violated = new Promise((resolve) => {
      document.addEventListener("securitypolicyviolation", (event) => resolve(event.effectiveDirective));
    });
    await fetch("http://127.0.0.1:1/").catch(() => undefined);
    return violated;
  });
  assert.equal(told, "connect-src");
});

test("where no script runs the first line says how to open it", async () => {
  const { page } = await fresh();
  await page.setJavaScriptEnabled(false);
  await page.reload();
  const seen = await page.evaluate("document.body.innerText.trim()").catch(() => "");
  const text =
    seen ||
    (await (await page.waitForSelector("#no-script", { visible: true }))?.evaluate((at) => at.textContent));
  assert.match(String(text), /^This page runs only in a browser/);
});
