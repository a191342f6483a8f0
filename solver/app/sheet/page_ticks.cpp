#include "solver/app/sheet/page_ticks.hpp"

#include "solver/app/sheet/page_written.hpp"

namespace barwright::app {
namespace {

constexpr const char* kStyle = R"css(
#next, #changed { display: none; }
#save { margin: 4mm 0; }
.typing { font-size: 12pt; }
[data-field] input, [data-box] input, [data-box] select, [data-box] textarea { font: inherit; width: 100%; min-width: 0; border: 1px solid #000; background: #fff; color: #000; border-radius: 0; }
[aria-invalid=true] { outline: 4px double #000; }
@media screen {
  button.box { min-width: 48px; min-height: 48px; background: #fff; cursor: pointer; }
  button.box[aria-pressed=true] { background: #000; }
  td.b, th.b { width: 52px; }
  [data-field] input, [data-box] input, [data-box] select, #save button { min-height: 48px; }
  #save button { font-size: 16pt; padding: 0 4mm; background: #fff; border: 3px solid #000; margin: 0 3mm 2mm 0; }
  #save pre { white-space: pre-wrap; border: 1px solid #000; padding: 2mm; font-size: 12pt; max-height: 40vh; overflow: auto; }
  td.w, th.w { min-width: 24mm; width: 24mm; }
  .record td { height: auto; }
  .boxes.paper { display: none; }
  .at { display: block; font-weight: normal; font-size: 12pt; white-space: normal; max-width: 24mm; }
  .ticking #next { display: block; position: sticky; bottom: 0; background: #fff; border-top: 4px solid #000; padding: 3mm; }
  #next b.what { display: block; font-size: 22pt; line-height: 1.2; max-height: 40vh; overflow: auto; }
  #next .wait { font-size: 20pt; font-variant-numeric: tabular-nums; margin: 2mm 0; }
  #next .wait.late { font-weight: bold; text-decoration: underline; }
  #next button { min-height: 64px; min-width: 48px; width: 100%; font-size: 20pt; background: #fff; border: 3px solid #000; touch-action: manipulation; }
  #next button.lye { border-width: 6px; }
  #changed.yes { display: block; border: 4px solid #000; padding: 2mm 3mm; font-weight: bold; }
}
@media screen and (max-width: 720px) {
  h1 span { display: block; }
  h1 { display: block; }
  .weigh thead, .clock thead { display: none; }
  td.w:not([data-key]) { display: none; }
  .clock table, .clock tbody, .record table, .record tbody { display: block; }
  .clock tr.step { display: grid; grid-template-columns: 56px minmax(0, 1fr) minmax(0, 1fr); border-bottom: 1px solid #000; padding: 1mm 0; }
  .clock tr.step td { border: 0; width: auto; }
  .clock tr.step td.what { grid-column: 2 / -1; }
  .clock td.c { grid-column: 2 / -1; }
  .clock td.b { grid-row: 1 / span 3; }
  .clock td.w { grid-row: 3; }
  .clock td.w { min-width: 0; }
  .record tr { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); }
  .record td.notes { grid-column: 1 / -1; }
  .weigh table, .weigh tbody, .weigh tr.group, .weigh tr.group td { display: block; }
  .weigh tr.line { display: grid; grid-template-columns: 56px minmax(0, 1fr) minmax(0, 1fr); border-bottom: 1px solid #000; }
  .weigh tr.line td.n { grid-column: 2 / -1; }
  .weigh tr.line td.b { grid-row: 1 / span 2; }
  .weigh tr.line td.g { grid-column: 2; text-align: left; }
  body { overflow-wrap: break-word; padding: 3mm; }
  .record td { border-width: 1px 0 0; }
  .weigh tr.line td { border: 0; width: auto; }
  .weigh tr.line td.s { grid-column: 2 / -1; padding-top: 0; }
  .weigh tr.line td.w[data-field=weighed] { grid-column: 2; }
  .weigh tr.line td.w { min-width: 0; }
  .weigh tr.line td.w[data-field=lots] { grid-column: 3 / -1; }
}
@media print { #save, .typing, .empty { display: none; } [data-field] input, [data-box] input, [data-box] select, [data-box] textarea { border: 0; appearance: none; padding: 0; resize: none; } button.box { padding: 0; background: #fff; } .at { display: none; } .ticking .sum { display: none; } }
)css";

constexpr const char* kTicks = R"js(
(() => {
  "use strict";
  // What is ticked is a list of events, each with its time; a second press on a box undoes that one.
  const body = document.body, sheet = body.dataset.sheet, key = "barwright-sheet-" + sheet;
  const last = "barwright-last-" + body.dataset.batch;
  const store = {
    get(name) { try { return localStorage.getItem(name); } catch { return null; } },
    set(name, text) { try { localStorage.setItem(name, text); return true; } catch { return false; } },
  };
  let events = [];
  try { events = JSON.parse(store.get(key) ?? "[]"); } catch { events = []; }
  if (!Array.isArray(events)) events = [];
  const ticked = (id) => {
    const of = events.filter((each) => each.id === id);
    return of.length > 0 && !of[of.length - 1].undone ? of[of.length - 1].at : null;
  };
  const steps = [...document.querySelectorAll("tr.step")];
  const lines = [...document.querySelectorAll("tr.line")];
  const two = (number) => String(number).padStart(2, "0");
  const clock = (at) => {
    const date = new Date(at), today = date.toDateString() === new Date().toDateString();
    const day = today ? "" : ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"][date.getDay()] + " ";
    return day + two(date.getHours()) + ":" + two(date.getMinutes());
  };
  const span = (ms) => {
    const seconds = Math.floor(Math.abs(ms) / 1000), hours = Math.floor(seconds / 3600);
    return hours > 0 ? hours + " h " + two(Math.floor(seconds / 60) % 60) + " min"
                     : Math.floor(seconds / 60) + ":" + two(seconds % 60) + " min";
  };
  // A weight as the sheet shows it: "12.5 g", "1 lb 4.70 oz" (counted in ounces).
  const weight = (text) => {
    const pounds = /([\d.]+) lb/.exec(text), last = /([\d.]+) (g|oz)$/.exec(text);
    const digits = (last[1].split(".")[1] ?? "").length;
    return { amount: Number(last[1]) + (pounds === null ? 0 : 16 * Number(pounds[1])), digits, ounces: last[2] === "oz" };
  };
  const weightText = (amount, digits, inOunces) => {
    if (!inOunces) return amount.toFixed(digits) + " g";
    // Whole steps first: 15.999 oz must not become "0 lb 16.00 oz".
    const steps = 10 ** digits, all = Math.round(amount * steps), pounds = Math.floor(all / (16 * steps));
    return (pounds > 0 ? pounds + " lb " : "") + ((all - 16 * steps * pounds) / steps).toFixed(digits) + " oz";
  };
  const element = (tag, className, text) => {
    const out = document.createElement(tag);
    out.className = className;
    out.textContent = text;
    return out;
  };
  const next = element("section", "", "");
  next.id = "next";
  const what = element("b", "what", ""), wait = element("p", "wait", ""), press = element("button", "", "");
  press.type = "button";
  next.append(element("span", "small", "Next (the screen in a clear bag, pressed with clean hands)"), what, wait, press);
  body.append(next);
  body.classList.add("ticking");

  const write = (id, undone) => {
    events.push(undone ? { id, at: Date.now(), undone: true } : { id, at: Date.now() });
    const kept = store.set(key, JSON.stringify(events));
    store.set(last, JSON.stringify({ sheet, count: steps.concat(lines).filter((row) => ticked(row.id) !== null).length }));
    if (!kept) wait.title = "this browser keeps nothing: leave the page open";
    show();
  };
  const following = () => steps.find((row) => ticked(row.id) === null) ?? null;
  // Due by the step ticked last before it: clock times, so that a closed lid loses none.
  const due = (row) => {
    let from = null;
    for (const each of steps) {
      const at = ticked(each.id);
      if (at !== null && (from === null || at >= from.at)) from = { at, minutes: Number(each.dataset.minutes) };
    }
    return from === null ? null : from.at + 60000 * (Number(row.dataset.minutes) - from.minutes);
  };
  // Every step still to come has its own time; what waits side by side is seen side by side.
  const showTimes = () => {
    for (const row of steps) {
      if (ticked(row.id) !== null) continue;
      const at = due(row);
      row.querySelector(".at").textContent =
        at === null ? "" : at > Date.now() - 60000 ? " due " + clock(at) : " late by " + span(Date.now() - at);
    }
  };
  const showWait = () => {
    showTimes();
    const row = following();
    const at = row === null ? null : due(row);
    wait.classList.toggle("late", at !== null && at < Date.now() - 60000);
    if (row === null) wait.textContent = "";
    else if (at === null) wait.textContent = "The clock starts with the first press.";
    else if (at > Date.now()) wait.textContent = "at " + clock(at) + ", in " + span(at - Date.now());
    else wait.textContent = "was due " + clock(at) + ", late by " + span(Date.now() - at);
  };
  const show = () => {
    for (const row of steps.concat(lines)) {
      const at = ticked(row.id), box = row.querySelector("button.box");
      box.setAttribute("aria-pressed", String(at !== null));
      row.querySelector(".at").textContent = at === null ? "" : " " + clock(at);
    }
    for (const sum of document.querySelectorAll(".sum")) {
      let amount = 0, digits = 0, inOunces = false;
      for (const row of lines) {
        if (row.dataset.pot !== sum.dataset.pot || ticked(row.id) === null) continue;
        const one = weight(row.dataset.weight);
        amount += one.amount;
        digits = Math.max(digits, one.digits);
        inOunces = one.ounces;
      }
      sum.textContent = amount > 0 ? " In the pot by your ticks: " + weightText(amount, digits, inOunces) + "." : "";
    }
    const row = following();
    what.textContent = row === null ? "All steps are ticked." : row.querySelector(".what").textContent;
    press.hidden = row === null;
    const lye = row !== null && row.dataset.lye === "1";
    press.className = lye ? "lye" : "";
    press.textContent = lye ? "Goggles on, water is in: alkali INTO water" : "Done";
    showWait();
  };
  press.addEventListener("click", () => { const row = following(); if (row !== null) write(row.id, false); });
  for (const row of steps.concat(lines)) {
    row.querySelector("button.box").addEventListener("click", () => {
      const on = ticked(row.id) !== null;
      // Lye into water has a press of its own: a box brushed in passing never says it.
      if (!on && row.dataset.lye === "1") {
        wait.textContent = "Lye into water has its own press here below, once it is the next step.";
        press.focus();
        return;
      }
      write(row.id, on);
    });
  }
)js";

constexpr const char* kStart = R"js(  const changed = document.getElementById("changed");
  try {
    const before = JSON.parse(store.get(last) ?? "null");
    if (before !== null && before.sheet !== sheet && before.count > 0) {
      changed.textContent = "The recipe changed since sheet " + before.sheet + " was ticked (" + before.count +
        " ticks): this is sheet " + sheet + ". Finish a batch by the sheet it was begun with.";
      changed.className = "yes";
    }
  } catch { /* nothing was ticked before */ }
  const awake = () => {
    if (document.visibilityState === "visible") navigator.wakeLock?.request("screen").catch(() => {});
  };
  document.addEventListener("visibilitychange", () => { awake(); show(); });
  document.addEventListener("click", awake, { once: true });
  awake();
  setInterval(showWait, 1000);
  show();
})();
)js";

}  // namespace

const char* page_ticks_style() { return kStyle; }

std::string page_ticks_script() { return std::string(kTicks) + page_written_script() + kStart; }

}  // namespace barwright::app
