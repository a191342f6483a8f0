#include "solver/app/sheet/page_written.hpp"

namespace barwright::app {
namespace {

constexpr const char* kScript =
    R"js(  // What is typed into the cells to write in: kept like the ticks, saved as the file 'make' takes.
  const kept = "barwright-written-" + sheet;
  let typed = {};
  try { typed = JSON.parse(store.get(kept) ?? "{}") ?? {}; } catch { typed = {}; }
  const fields = [];
  const plainWeight = /^[0-9]+(\.[0-9]+)?( ?(g|kg|oz|lb)( [0-9]+(\.[0-9]+)? ?oz)?)?$/;
  const plainWarm = /^-?[0-9]+(\.[0-9]+)?( ?[CF])?$/;
  const plainTime = /^([01]?[0-9]|2[0-3]):[0-5][0-9]$/;
  const field = (cell, name, kind, say, pattern, hint) => {
    const input = document.createElement(kind === "notes" ? "textarea" : kind === "gel" ? "select" : "input");
    if (kind === "gel") {
      for (const choice of ["", "none", "mid", "all"]) input.append(new Option(choice === "" ? "not seen" : choice, choice));
    } else if (kind !== "notes") {
      input.type = kind;
    }
    if (pattern !== undefined) input.inputMode = "decimal";
    input.setAttribute("aria-label", say);
    if (hint !== undefined) input.placeholder = hint;
    input.dataset.name = name;
    input.value = typeof typed[name] === "string" ? typed[name] : "";
    const look = () => {
      input.classList.toggle("empty", input.value === "");
      const wrong = pattern !== undefined && input.value !== "" && !pattern.test(input.value.trim());
      input.setAttribute("aria-invalid", String(wrong));
      input.title = !wrong ? "" : pattern === plainTime ? "hours and minutes, such as 9:55"
                            : "a number with a full stop, such as 12.5, or with its unit";
    };
    input.addEventListener("input", () => {
      typed[name] = input.value;
      if (!store.set(kept, JSON.stringify(typed))) wait.title = "this browser keeps nothing: leave the page open";
      look();
    });
    look();
    cell.append(input);
    fields.push(input);
  };
  for (const cell of document.querySelectorAll("[data-field]")) {
    const what = cell.dataset.field, name = what + " " + cell.dataset.key;
    field(cell, name, "text", cell.dataset.say,
      { weighed: plainWeight, warm: plainWarm, time: plainTime }[what],
      { weighed: "weighed", lots: "lot", warm: "C", time: "time" }[what]);
  }
  for (const cell of document.querySelectorAll("[data-box]")) {
    const box = cell.dataset.box, say = cell.dataset.say, name = "happened " + cell.dataset.key;
    if (box === "notes") field(cell, "notes", "notes", say);
    else if (box === "gel") { cell.querySelector(".boxes").className = "boxes paper"; field(cell, name, "gel", say); }
    else if (box === "trace" || box === "poured") {
      field(cell, name, "text", say + ", time", plainTime, "time");
      field(cell, name + " warm", "text", say + ", temperature", plainWarm, "C");
    } else if (box === "each") {
      field(cell, "bars", "text", "bars as cut", /^[0-9]+$/, "bars");
      field(cell, name, "text", "weight of a bar", plainWeight, "each");
    } else field(cell, name, "datetime-local", say);
  }
  const day = (at) => { const date = new Date(at); return date.getFullYear() + "-" + two(date.getMonth() + 1) + "-" + two(date.getDate()); };
  const said = (name) => (typed[name] ?? "").trim();
  const inUnit = (text, unit) => text === "" || /[a-zA-Z]/.test(text) ? text : text + " " + unit;
  const pair = (what, value) => "  " + JSON.stringify(what) + ": " + JSON.stringify(value) + "\n";
  // Every text in quotes, as JSON has them: such a file says nothing but what was typed.
  const written = () => {
    const stamps = steps.map((row) => ticked(row.id)).filter((at) => at !== null);
    const made = day(stamps.length > 0 ? Math.min(...stamps) : Date.now());
    let out = "written: " + JSON.stringify(body.dataset.batch) + "\nsheet: " + JSON.stringify(sheet) + "\ndate: " + made + "\n";
    if (said("bars") !== "") out += "bars: " + said("bars") + "\n";
    const block = (key, pairs) => { if (pairs.length > 0) out += key + ":\n" + pairs.map(([what, value]) => pair(what, value)).join(""); };
    const cells = [...document.querySelectorAll("[data-field]")];
    for (const key of ["weighed", "lots"]) {
      block(key, cells.filter((cell) => cell.dataset.field === key && said(key + " " + cell.dataset.key) !== "")
        .map((cell) => [cell.dataset.key, key === "weighed" ? inUnit(said("weighed " + cell.dataset.key), body.dataset.unit) : said("lots " + cell.dataset.key)]));
    }
    const moments = steps.map((row, i) => {
      const at = ticked(row.id), own = said("time " + (i + 1));
      const stamp = at === null ? "" : clock(at).slice(-5), on = at !== null && day(at) !== made ? day(at) + " " : "";
      return [String(i + 1), [own !== "" ? own : on + stamp, inUnit(said("warm " + (i + 1)), "C")].filter((text) => text !== "").join(", ")];
    });
    block("steps", moments.filter(([, text]) => text !== ""));
    const boxes = [...document.querySelectorAll("[data-box]:not([data-box=notes])")].map((cell) => {
      const name = "happened " + cell.dataset.key, box = cell.dataset.box;
      const first = box === "each" ? inUnit(said(name), body.dataset.unit) : said(name).replace("T", " ");
      return [cell.dataset.key, [first, inUnit(said(name + " warm"), "C")].filter((text) => text !== "").join(", ")];
    });
    block("happened", boxes.filter(([, text]) => text !== ""));
    const notes = said("notes").split("\n").map((line) => line.trim()).filter((line) => line !== "");
    if (notes.length > 0) out += "notes:\n" + notes.map((line) => "  - " + JSON.stringify(line) + "\n").join("");
    if (lines.some((row) => ticked(row.id) !== null)) {
      const open = lines.filter((row) => ticked(row.id) === null && row.querySelector("[data-field]") !== null)
        .map((row) => row.querySelector("[data-field]").dataset.key).filter((key) => said("weighed " + key) === "");
      if (open.length > 0) out += "not-ticked:\n" + open.map((key) => "  - " + JSON.stringify(key) + "\n").join("");
    }
    return out;
  };
  const save = element("section", "", "");
  save.id = "save";
  const down = element("button", "", "Save what was written"), copy = element("button", "", "Show it"), text = element("pre", "", "");
  down.type = copy.type = "button";
  text.hidden = true;
  const name = body.dataset.batch.replace(/[^A-Za-z0-9._-]+/g, "-") + "-written.yaml";
  const how = element("p", "", "Into the books with: barwright make " + body.dataset.file + " --written " + name);
  save.append(down, copy, how, text);
  next.before(save);
  down.addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([written()], { type: "text/plain" }));
    link.download = name;
    link.click();
  });
  copy.addEventListener("click", () => { text.textContent = written(); text.hidden = false; });
)js";

}  // namespace

const char* page_written_script() { return kScript; }

}  // namespace barwright::app
