// Drives the page in Debian's chromium. FORM says which form is tried: 'file' (PAGE is workbench.html) or 'served'
// (PROGRAM is barwright, which serves an empty folder to each browser).
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

export const form = process.env.FORM ?? "file";
const chromium = process.env.CHROMIUM ?? "/usr/bin/chromium";
const patience = Number(process.env.PATIENCE ?? 60000);

/**
 * The address of the form that is tried: of the file, or of a server started for it over a folder of its own.
 * @returns {Promise<string>}
 */
export async function openForm() {
  const { PAGE: file, PROGRAM: program } = process.env;
  if (form === "file" || !program) return file?.startsWith("/") ? pathToFileURL(file).href : (file ?? "");
  const folder = await mkdtemp(join(tmpdir(), "workbench-folder-"));
  const server = spawn(program, ["serve", folder], { stdio: ["ignore", "pipe", "inherit"] });
  after(async () => {
    server.kill();
    await rm(folder, { recursive: true, force: true });
  });
  return new Promise((resolve, reject) => {
    let said = "";
    server.stdout.on("data", (part) => {
      said += part;
      const found = /http:\/\/127\.0\.0\.1:\S+/.exec(said);
      if (found) resolve(found[0]);
    });
    server.on("exit", () => reject(new Error("barwright serve ended: " + said)));
  });
}

/**
 * A page in a browser of its own with a fresh profile, closed when the tests of the file have run.
 * @param {{width?: number, height?: number, touch?: boolean, scheme?: string, reduced?: boolean,
 *          before?: (page: import("puppeteer-core").Page) => Promise<void>}} [how]
 */
export async function fresh(how = {}) {
  const { width = 1400, height = 900, touch = false, scheme = "light" } = how;
  const profile = await mkdtemp(join(tmpdir(), "workbench-"));
  const browser = await puppeteer.launch({
    executablePath: chromium,
    headless: true,
    userDataDir: profile,
    args: ["--no-sandbox", "--disable-gpu"],
    defaultViewport: { width, height, hasTouch: touch, isMobile: touch },
  });
  const close = async () => {
    await browser.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  };
  after(close);
  const page = (await browser.pages())[0];
  page.setDefaultTimeout(patience);
  /** @type {string[]} */
  const faults = [];
  page.on("pageerror", (fault) => faults.push(String(fault)));
  page.on("console", (line) => line.type() === "error" && faults.push(line.text()));
  await page.emulateMediaFeatures([
    { name: "prefers-color-scheme", value: scheme },
    { name: "prefers-reduced-motion", value: how.reduced === false ? "no-preference" : "reduce" },
  ]);
  if (form === "file") {
    await page.setOfflineMode(true);
    await page.evaluateOnNewDocument(() => {
      Reflect.deleteProperty(window, "showSaveFilePicker");
    });
  }
  await how.before?.(page);
  await page.goto(await openForm());
  await page.waitForSelector("#play", { visible: true });
  return { page, browser, faults };
}

/**
 * Waits until the bench is in one of these states and nothing is looked for any more.
 * @param {import("puppeteer-core").Page} page
 * @param {...string} phases
 */
export async function settled(page, ...phases) {
  const ended = ["rest", "nothing", "trouble", "stopped"];
  await page.waitForFunction(
    (wanted) =>
      wanted.includes(document.body.dataset.phase ?? "") &&
      document.body.dataset.held !== "true" &&
      document.getElementById("bench")?.getAttribute("aria-busy") === "false",
    {},
    ended,
  );
  const phase = await page.evaluate(() => document.body.dataset.phase ?? "");
  assert.ok(phases.includes(phase), phase + ": " + (await textOf(page, "#bench")));
}

/**
 * Opens the invented workshop and waits for its weighed blend.
 * @param {import("puppeteer-core").Page} page
 */
export async function play(page) {
  await page.click("#play");
  await settled(page, "rest");
}

/**
 * What the page says in this place.
 * @param {import("puppeteer-core").Page} page
 * @param {string} selector
 */
export function textOf(page, selector) {
  return page.$eval(selector, (at) => /** @type {HTMLElement} */ (at).innerText.replaceAll("\u00a0", " "));
}

/**
 * Clicks what may lie under the foot of the page, once it has been brought up.
 * @param {import("puppeteer-core").Page} page
 * @param {string} selector
 */
export async function clickOn(page, selector) {
  await page.$eval(selector, (at) => at.scrollIntoView({ block: "center" }));
  await page.click(selector);
}

/**
 * Types a figure into an end of a rail and leaves the field.
 * @param {import("puppeteer-core").Page} page
 * @param {string} rail
 * @param {"low" | "high"} side
 * @param {string} figure
 */
export async function typeEnd(page, rail, side, figure) {
  const field = `[data-rail="${rail}"] .end.${side} .figure`;
  await page.click(field, { count: 3 });
  await page.keyboard.press("Backspace");
  if (figure) await page.type(field, figure);
  await page.keyboard.press("Enter");
}

/**
 * The middle of an end's grip on the screen.
 * @param {import("puppeteer-core").Page} page
 * @param {string} rail
 * @param {"low" | "high"} side
 * @param {number} [quarters] where it would stand at so many quarters of a step; where it stands unless said
 */
export function grip(page, rail, side, quarters) {
  return page.$eval(
    `[data-rail="${rail}"] .slider.${side}`,
    (at, wanted) => {
      const slider = /** @type {HTMLInputElement} */ (at);
      slider.scrollIntoView({ block: "center" });
      const box = slider.getBoundingClientRect();
      const value = wanted ?? Number(slider.value);
      const part = (value - Number(slider.min)) / (Number(slider.max) - Number(slider.min));
      return { x: box.left + 12 + part * (box.width - 24), y: box.top + box.height / 2 };
    },
    quarters,
  );
}

/**
 * Puts a text in place of a file's, as by hand in the window of files.
 * @param {import("puppeteer-core").Page} page
 * @param {string} path
 * @param {(text: string) => string} change
 */
export async function writeFile(page, path, change) {
  await press(page, "#tools", "Files");
  await page.select("dialog select", path);
  const text = await page.$eval("dialog textarea", (at) => /** @type {HTMLTextAreaElement} */ (at).value);
  const changed = change(text);
  assert.notEqual(changed, text, "the test changes nothing in " + path);
  await page.$eval(
    "dialog textarea",
    (at, wanted) => {
      /** @type {HTMLTextAreaElement} */ (at).value = wanted;
    },
    changed,
  );
  await press(page, "dialog", "Use this text");
}

/**
 * Presses the button that says this.
 * @param {import("puppeteer-core").Page} page
 * @param {string} within
 * @param {string} says
 */
export async function press(page, within, says) {
  for (const button of await page.$$(within + " button")) {
    const text = await button.evaluate((at) => at.textContent);
    if (text === says) return button.click();
  }
  assert.fail("no button says " + says);
}
