// Rows of oils as they are typed on the first page: what stands on the shelf, and the shares of a bar.

import { button, el } from "./dom.js";
import { words } from "./words.js";

/**
 * @typedef {HTMLInputElement | HTMLSelectElement} Cell
 * @typedef {{row: HTMLElement, oil: HTMLInputElement, cells: Record<string, Cell>}} Row
 */

const units = ["kg", "g", "L", "lb", "oz"];

/** @param {string} label */
function figure(label) {
  return el("input", {
    type: "text",
    inputmode: "decimal",
    class: "figure",
    "aria-label": label,
    autocomplete: "off",
  });
}

/** @param {string} label */
function unit(label) {
  const options = units.map((name) => el("option", { value: name }, name));
  return el("select", { "aria-label": label }, ...options);
}

/**
 * @param {string} label
 * @param {...Node} inside
 */
function cell(label, ...inside) {
  return el(
    "span",
    { class: "cell" },
    el("span", { class: "cell-word", "aria-hidden": "true" }, label),
    ...inside,
  );
}

function oilInput() {
  const { oil: label } = words;
  const how = { list: "oil-names", class: "oil", autocomplete: "off", spellcheck: "false" };
  return el("input", { type: "text", "aria-label": label, placeholder: label, ...how });
}

/** @returns {Row} what there is of an oil, and what a pack of it cost */
export function shelfRow() {
  const oil = oilInput();
  const cells = {
    have: figure(words.have),
    haveUnit: unit(words.have),
    paid: figure(words.paid),
    pack: figure(words.pack),
    packUnit: unit(words.pack),
  };
  const have = cell(words.have, cells.have, cells.haveUnit);
  const pack = cell(words.pack, cells.pack, cells.packUnit);
  return {
    row: el("div", { class: "row shelf-row" }, oil, have, cell(words.paid, cells.paid), pack),
    oil,
    cells,
  };
}

/** @returns {Row} an oil and its share of the bar */
export function barRow() {
  const oil = oilInput();
  const share = figure(words.shareOf);
  const shown = el("span", { class: "cell" }, share, el("span", { "aria-hidden": "true" }, "%"));
  return { row: el("div", { class: "row bar-row" }, oil, shown), oil, cells: { share } };
}

/**
 * @param {Cell[]} cells
 * @param {string[]} figures
 */
function fillCells(cells, figures) {
  let next = 0;
  for (const [at, field] of cells.entries()) {
    if (!(field instanceof HTMLInputElement)) continue;
    const [, figure, unitName] = /^(.*?)\s*(kg|g|l|lb|oz|%)?$/i.exec(figures[next++] ?? "") ?? [];
    field.value = figure ?? "";
    const choice = cells[at + 1];
    if (!unitName || !(choice instanceof HTMLSelectElement)) continue;
    choice.value = units.find((name) => name.toLowerCase() === unitName.toLowerCase()) ?? choice.value;
  }
}

/** A list of such rows that grows and shrinks. */
export class OilRows {
  /** @type {Row[]} */
  rows = [];
  root = el("div", { class: "rows" });

  /**
   * @param {() => Row} make
   * @param {() => void} changed
   */
  constructor(make, changed) {
    this.make = make;
    this.changed = changed;
    this.more = button(words.addRow, () => this.add().oil.focus(), { class: "quiet" });
    this.root.addEventListener("input", changed);
    for (let row = 0; row < 3; row++) this.add();
  }

  /** @returns {Row} */
  add() {
    const made = this.make();
    const says = { class: "quiet out", "aria-label": words.removeRow("") };
    made.row.append(button("\u2715", () => this.#remove(made), says));
    made.oil.addEventListener("input", () => {
      made.row.querySelector(".out")?.setAttribute("aria-label", words.removeRow(made.oil.value));
    });
    made.oil.addEventListener("paste", (event) => this.#paste(event, made));
    this.rows.push(made);
    this.root.append(made.row);
    return made;
  }

  /**
   * Cells of a spreadsheet fill this row and those below it, a line each: the oil, then its figures in the order
   * of the fields. A unit behind a figure ("5 kg") is taken where there is one to choose.
   * @param {ClipboardEvent} event
   * @param {Row} first
   */
  #paste(event, first) {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (!/[\t\n]/.test(text.trim())) return;
    event.preventDefault();
    let at = this.rows.indexOf(first);
    for (const line of text.split(/\r?\n/).filter((one) => one.trim() !== "")) {
      const row = this.rows[at++] ?? this.add();
      const [oil, ...figures] = line.split("\t").map((one) => one.trim());
      row.oil.value = oil;
      row.oil.dispatchEvent(new Event("input", { bubbles: true }));
      fillCells(Object.values(row.cells), figures);
    }
    this.changed();
  }

  /** @param {Row} row */
  #remove(row) {
    row.row.remove();
    this.rows = this.rows.filter((other) => other !== row);
    this.more.focus();
    this.changed();
  }

  /** @returns {Row[]} those with an oil in them */
  filled() {
    return this.rows.filter((row) => row.oil.value.trim() !== "");
  }
}
