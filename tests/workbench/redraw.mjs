// How long a redraw takes, run by hand: FORM=file PAGE=... node redraw.mjs [OILS] [SLOWER]
// OILS is what the brief may choose from: shelf (7 oils) or library (89).
// 200 moves of a rail at 60 Hz; for each one that was answered, the time from its input event to the frame that
// shows its answer; after each of 20 lettings go, the time to the weighed answer. SLOWER divides the CPU's speed.
import { test } from "node:test";
import { fresh, play, settled, writeFile } from "./driver.mjs";

const [oils = "shelf", slower = "1"] = process.argv.slice(2);

/** @param {number[]} times */
function figures(times) {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (/** @type {number} */ part) =>
    sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))];
  return `${times.length} answered, median ${at(0.5)?.toFixed(0)} ms, p95 ${at(0.95)?.toFixed(0)} ms`;
}

test("redraw", async () => {
  const { page } = await fresh();
  await play(page);
  if (oils !== "shelf") {
    await writeFile(page, "firmer-bar.yaml", (text) =>
      text.replace("oils-from: shelf", "oils-from: " + oils),
    );
    await settled(page, "rest");
  }
  const session = await page.createCDPSession();
  await session.send("Emulation.setCPUThrottlingRate", { rate: Number(slower) });
  const { drafts, longest, settles } = await page.evaluate(async () => {
    const slider = /** @type {HTMLInputElement} */ (
      document.querySelector('[data-rail="hardness"] .slider.low')
    );
    const { body } = document;
    /** @type {Map<string, number>} */
    const asked = new Map();
    /** @type {number[]} */
    const drafts = [];
    /** @type {number[]} */
    const settles = [];
    let longest = 0;
    new PerformanceObserver((seen) => {
      for (const task of seen.getEntries()) longest = Math.max(longest, task.duration);
    }).observe({ type: "longtask" });
    const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
    new MutationObserver(async () => {
      const answered = body.dataset.answers ?? "";
      const from = asked.get(answered);
      if (from === undefined) return;
      asked.delete(answered);
      await frame();
      await frame(); // the one before has been painted
      drafts.push(performance.now() - from);
    }).observe(body, { attributeFilter: ["data-answers"] });
    for (let move = 0; move < 200; move++) {
      await frame();
      slider.value = String(Math.abs((move % 18) - 9)); // each move is another wish
      const from = performance.now();
      const before = body.dataset.asked;
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      if (body.dataset.asked !== before) asked.set(body.dataset.asked ?? "", from);
    }
    const rest = async () => {
      while (body.dataset.phase !== "rest") await frame();
      await frame();
    };
    slider.dispatchEvent(new Event("change", { bubbles: true }));
    await rest();
    for (let go = 0; go < 20; go++) {
      slider.value = String(3 + (go % 5));
      const from = performance.now();
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      slider.dispatchEvent(new Event("change", { bubbles: true }));
      await rest();
      settles.push(performance.now() - from);
    }
    return { drafts, longest, settles };
  });
  console.log(
    `draft: ${figures(drafts)}\nweighed: ${figures(settles)}\nlongest task: ${longest.toFixed(0)} ms`,
  );
});
