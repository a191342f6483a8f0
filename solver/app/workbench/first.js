// The first page: the invented workshop to play with, a saved one, or three short steps to one's own bar.

import { button, el, fill, put } from "./dom.js";
import { short, typedNumber, writing, written } from "./numbers.js";
import { barRow, OilRows, shelfRow } from "./oil_rows.js";
import { briefFile, makeWorkshop, NotTaken } from "./own_files.js";
import { railWords, words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {import("./keeping.js").Keeper} Keeper
 * @typedef {import("./oil_rows.js").Row} Row
 * @typedef {import("./own_files.js").Told} Told
 * @typedef {(files: Files, brief: string, unsaved: boolean) => void} Lay
 */

// What each answer is as a wish of a brief.
/** @type {[string, string][]} */
const answers = [
  ["clearly less", words.less],
  ["no less", words.same],
  ["clearly more", words.more],
  ["", words.leave],
];
/** @type {[string, [string, string][]][]} */
const questions = [
  ["hardness", answers],
  ["lather", answers],
  ["conditioning", answers],
  [
    "cost",
    [
      ["cheapest", words.cheaper],
      ["no more than now", words.notDearer],
      ["", words.leave],
    ],
  ],
];

/**
 * Draws the first page.
 * @param {HTMLElement} at
 * @param {Engine} engine
 * @param {Keeper} keeper
 * @param {Lay} lay
 */
export async function showFirst(at, engine, keeper, lay) {
  const [newest, older] = keeper.draft.found();
  const drafts = [
    ...(newest ? [button(words.draftOpen, () => keeper.openDraft(newest, true))] : []),
    ...(older ? [button(words.draftOlder, () => keeper.openDraft(older, false))] : []),
  ];
  const invented = async () => {
    const ran = await engine.run(["new", "."], {});
    lay(ran.files, "firmer-bar.yaml", false);
  };
  const own = el("div", { class: "own", hidden: true });
  const start = button(
    words.startOwn,
    async () => {
      start.hidden = true;
      await new OwnBar(own, engine, lay).draw();
    },
    { class: "main" },
  );
  fill(
    at,
    el("h2", { class: "first-head" }, words.firstHead),
    el("p", { class: "lead" }, words.firstLead),
    el(
      "p",
      { class: "first-start" },
      start,
      ...drafts,
      button(words.openSaved, () => keeper.open()),
      ...(keeper.canPickFolder ? [button(words.openFolder, () => keeper.openFolder())] : []),
    ),
    own,
    el(
      "section",
      { class: "play" },
      el("h3", {}, words.playHead),
      el("p", {}, words.playLead),
      button(words.play, invented, { id: "play" }),
    ),
  );
}

/** Thrown where a field cannot be read; it is marked and the cursor put there. */
class Unreadable extends Error {
  /**
   * @param {HTMLElement} at
   * @param {string} why
   */
  constructor(at, why) {
    super(why);
    this.at = at;
  }
}

/**
 * The figure of a field with a point, as files want it.
 * @param {HTMLInputElement | HTMLSelectElement} cell
 * @param {string} beside
 */
function readFigure(cell, beside) {
  const value = typedNumber(cell.value);
  if (value === null) throw new Unreadable(cell, words.needFigure(beside));
  return written(value);
}

/** @param {string} value @param {string} id */
function sizeInput(value, id) {
  return el("input", { type: "text", value, id, inputmode: "decimal", class: "figure", autocomplete: "off" });
}

/** The three short steps. */
class OwnBar {
  fault = el("p", { class: "form-fault", role: "alert" });
  sum = el("span", { class: "sum" });
  currency = el("input", {
    type: "text",
    value: "EUR",
    maxlength: 3,
    size: 4,
    "aria-label": words.currency,
    autocomplete: "off",
  });
  bars = sizeInput("12", "bars");
  barWeight = sizeInput("100", "bar-weight");
  shelf = new OilRows(shelfRow, () => undefined);
  bar = new OilRows(barRow, () => this.#addUp());

  /**
   * @param {HTMLElement} at
   * @param {Engine} engine
   * @param {Lay} lay
   */
  constructor(at, engine, lay) {
    this.at = at;
    this.engine = engine;
    this.lay = lay;
  }

  async draw() {
    const names = await this.#names();
    const currency = el("label", { class: "inline" }, words.currency + " ", this.currency);
    const shelf = [this.#decimals(), currency, this.shelf.root, this.shelf.more];
    const bar = [this.bar.root, el("p", { class: "row-foot" }, this.bar.more, this.sum)];
    const wish = [...questions.map(([name, answers]) => question(name, answers)), this.#size()];
    const form = el(
      "form",
      { class: "steps", novalidate: true },
      names,
      step(1, words.stepShelf, words.stepShelfLead, shelf),
      step(2, words.stepBar, words.stepBarLead, bar),
      step(3, words.stepWish, words.stepWishLead, wish),
      this.fault,
      el("button", { type: "submit", class: "main big" }, words.find),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#find();
    });
    fill(this.at, form);
    this.at.hidden = false;
    this.shelf.rows[0].oil.focus();
  }

  async #names() {
    const list = el("datalist", { id: "oil-names" });
    const ran = await this.engine.run(["oils", "--json"], {});
    for (const name of ran.json?.oils ?? []) {
      list.append(el("option", { value: name }));
      for (const other of ran.json?.synonyms?.[name] ?? []) {
        list.append(el("option", { value: name, label: name + " (" + other + ")" }));
      }
    }
    return list;
  }

  #decimals() {
    const point = el("option", { value: "point" }, words.point);
    const choice = el("select", {}, point, el("option", { value: "comma" }, words.commaMark));
    choice.value = writing.comma ? "comma" : "point";
    choice.addEventListener("change", () => {
      writing.comma = choice.value === "comma";
      this.#addUp();
    });
    return el("label", { class: "inline" }, words.decimals + " ", choice);
  }

  #addUp() {
    const shares = this.bar.rows.map((row) => typedNumber(row.cells.share.value) ?? 0);
    const all = shares.reduce((sum, share) => sum + share, 0);
    put(this.sum, all > 0 ? words.sum(short(all) + "\u00a0%") : "");
  }

  #size() {
    const bars = el("label", {}, words.bars + " ", this.bars);
    return el("p", { class: "size" }, bars, el("label", {}, words.barWeight + " ", this.barWeight));
  }

  /** @returns {Told} */
  #told() {
    const shelf = this.shelf.filled().map(({ oil, cells }) => {
      const have = readFigure(cells.have, oil.value) + " " + cells.haveUnit.value;
      const priced = cells.paid.value.trim() !== "";
      const paid = priced ? readFigure(cells.paid, oil.value) : "";
      const pack = priced ? readFigure(cells.pack, oil.value) + " " + cells.packUnit.value : "";
      return { oil: oil.value.trim(), have, paid, pack };
    });
    const bar = this.bar.filled().map(({ oil, cells }) => {
      return { oil: oil.value.trim(), share: readFigure(cells.share, oil.value) };
    });
    const chosen = /** @type {HTMLInputElement[]} */ ([
      ...this.at.querySelectorAll("input[type=radio]:checked"),
    ]);
    const cost = chosen.find((choice) => choice.name === "cost");
    if (cost?.value && !shelf.some((line) => line.paid)) throw new Unreadable(cost, words.needPrices);
    const wishes = chosen
      .filter((choice) => choice.value !== "")
      .map((choice) => {
        return { name: choice.name, phrase: choice.value };
      });
    const bars = readFigure(this.bars, words.bars);
    const each = readFigure(this.barWeight, words.barWeight);
    return { name: words.myBar, currency: this.currency.value.trim(), shelf, bar, wishes, bars, each };
  }

  async #find() {
    put(this.fault, "");
    for (const marked of this.at.querySelectorAll("[aria-invalid]")) marked.removeAttribute("aria-invalid");
    try {
      this.lay(await makeWorkshop(this.engine, this.#told()), briefFile, true);
    } catch (fault) {
      this.#refuse(fault);
    }
  }

  /** @param {unknown} fault */
  #refuse(fault) {
    let at = /** @type {HTMLElement} */ (this.bars);
    if (fault instanceof Unreadable) at = fault.at;
    else if (fault instanceof NotTaken) {
      const bar = this.bar.filled();
      const named = bar.find((one) => fault.message.includes("'" + one.oil.value.trim() + "'"));
      const row = fault.where === "shelf" ? this.shelf.filled()[fault.row] : (named ?? bar[0]);
      at = fault.where === "currency" ? this.currency : (fault.where !== "size" && row?.oil) || this.bars;
    }
    put(this.fault, fault instanceof Error ? fault.message : String(fault));
    at.setAttribute("aria-invalid", "true");
    at.focus();
  }
}

/**
 * @param {number} number
 * @param {string} head
 * @param {string} lead
 * @param {Node[]} inside
 */
function step(number, head, lead, inside) {
  const mark = el("span", { class: "step-number", "aria-hidden": "true" }, String(number));
  return el(
    "fieldset",
    { class: "step" },
    el("legend", {}, mark, head),
    el("p", { class: "step-lead" }, lead),
    ...inside,
  );
}

/**
 * @param {string} name
 * @param {[string, string][]} answers
 */
function question(name, answers) {
  const set = name === "hardness" ? 2 : name === "cost" ? answers.length - 1 : 1;
  const choices = answers.map(([value, label], at) => {
    return el(
      "label",
      {},
      el("input", { type: "radio", name, value, checked: at === set }),
      el("span", {}, label),
    );
  });
  const legend = el("legend", {}, railWords[name].name);
  return el("fieldset", { class: "question" }, legend, el("span", { class: "choices" }, ...choices));
}
