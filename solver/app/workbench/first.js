// The first page: the invented workshop to play with, a saved one, or three short steps to one's own bar.

import { button, el, fill, put } from "./dom.js";
import { short, typedNumber, writing, written } from "./numbers.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {import("./keeping.js").Keeper} Keeper
 * @typedef {(files: Files, brief: string, unsaved: boolean) => void} Lay
 * @typedef {{row: HTMLElement, oil: HTMLInputElement, cells: Record<string, HTMLInputElement | HTMLSelectElement>}} Row
 */

const shelfFile = "shelf.yaml";
const briefFile = "my-bar.yaml";
// A shelf with nothing on it; what stands there comes onto it by the engine's own 'shelf receive'.
const emptyShelf =
  "# What stands on your shelf. 'have' is what is there, 'paid' what a pack cost.\nshelf: my shelf\ncurrency: EUR\nstock: []\n";
const massUnits = ["kg", "g", "L", "lb", "oz"];

// What each answer is in the words of a wish.
/** @type {[string, [string, string][]][]} */
const questions = [
  [
    "hardness",
    [
      ["softer", words.less],
      ["no softer", words.same],
      ["harder", words.more],
      ["", words.leave],
    ],
  ],
  [
    "lather",
    [
      ["less foam", words.less],
      ["lather no less", words.same],
      ["more foam", words.more],
      ["", words.leave],
    ],
  ],
  [
    "conditioning",
    [
      ["more drying", words.less],
      ["as kind to the skin", words.same],
      ["less drying", words.more],
      ["", words.leave],
    ],
  ],
  [
    "cost",
    [
      ["cheaper", words.cheaper],
      ["no dearer", words.notDearer],
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
  const draft = keeper.draft();
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
      ...(draft ? [button(words.draftOpen, () => keeper.openKept(draft, true))] : []),
      button(words.openSaved, () => keeper.open()),
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

/** The three short steps. */
class OwnBar {
  /** @type {Row[]} */
  shelf = [];
  /** @type {Row[]} */
  bar = [];

  /**
   * @param {HTMLElement} at
   * @param {Engine} engine
   * @param {Lay} lay
   */
  constructor(at, engine, lay) {
    this.at = at;
    this.engine = engine;
    this.lay = lay;
    this.fault = el("p", { class: "form-fault", role: "alert" });
    this.sum = el("span", { class: "sum" });
    this.currency = el("input", {
      type: "text",
      value: "EUR",
      maxlength: 3,
      size: 4,
      "aria-label": words.currency,
      autocomplete: "off",
    });
    this.bars = el("input", {
      type: "text",
      value: "12",
      inputmode: "numeric",
      id: "bars",
      class: "figure",
      autocomplete: "off",
    });
    this.barWeight = el("input", {
      type: "text",
      value: "100",
      inputmode: "decimal",
      id: "bar-weight",
      class: "figure",
      autocomplete: "off",
    });
  }

  async draw() {
    const list = await this.#names();
    const shelfRows = el("div", { class: "rows" });
    const barRows = el("div", { class: "rows" });
    const addShelf = () => this.shelf.push(this.#shelfRow(shelfRows));
    const addBar = () => this.bar.push(this.#barRow(barRows));
    for (let row = 0; row < 3; row++) {
      addShelf();
      addBar();
    }
    const more = (/** @type {() => void} */ add, /** @type {Row[]} */ rows) =>
      button(
        words.addRow,
        () => {
          add();
          rows.at(-1)?.oil.focus();
        },
        { class: "quiet" },
      );
    const form = el(
      "form",
      {
        class: "steps",
        novalidate: true,
        onsubmit: (event) => {
          event.preventDefault();
          this.#find();
        },
      },
      list,
      this.#step(
        1,
        words.stepShelf,
        words.stepShelfLead,
        this.#decimals(),
        el("label", { class: "inline" }, words.currency + " ", this.currency),
        shelfRows,
        more(addShelf, this.shelf),
      ),
      this.#step(
        2,
        words.stepBar,
        words.stepBarLead,
        barRows,
        el("p", { class: "row-foot" }, more(addBar, this.bar), this.sum),
      ),
      this.#step(
        3,
        words.stepWish,
        words.stepWishLead,
        ...questions.map(([name, answers]) => this.#question(name, answers)),
        this.#size(),
      ),
      this.fault,
      el("button", { type: "submit", class: "main big" }, words.find),
    );
    fill(this.at, form);
    this.at.hidden = false;
    this.shelf[0].oil.focus();
  }

  async #names() {
    const list = el("datalist", { id: "oil-names" });
    const ran = await this.engine.run(["oils", "--json"], {});
    for (const name of ran.json?.oils ?? []) {
      list.append(el("option", { value: name }));
      for (const other of ran.json?.synonyms?.[name] ?? [])
        list.append(el("option", { value: name, label: name + " (" + other + ")" }));
    }
    return list;
  }

  /**
   * @param {number} number
   * @param {string} head
   * @param {string} lead
   * @param {...Node} inside
   */
  #step(number, head, lead, ...inside) {
    return el(
      "fieldset",
      { class: "step" },
      el("legend", {}, el("span", { class: "step-number", "aria-hidden": "true" }, String(number)), head),
      el("p", { class: "step-lead" }, lead),
      ...inside,
    );
  }

  #decimals() {
    const choice = el(
      "select",
      {
        id: "decimals",
        onchange: () => {
          writing.comma = choice.value === "comma";
          this.#addUp();
        },
      },
      el("option", { value: "point" }, words.point),
      el("option", { value: "comma" }, words.commaMark),
    );
    choice.value = writing.comma ? "comma" : "point";
    return el("label", { class: "inline" }, words.decimals + " ", choice);
  }

  /** @param {string} label */
  #oilInput(label) {
    return el("input", {
      type: "text",
      list: "oil-names",
      class: "oil",
      "aria-label": label,
      placeholder: label,
      autocomplete: "off",
      spellcheck: "false",
    });
  }

  /**
   * @param {string} label
   * @param {string} value
   */
  #unit(label, value) {
    const unit = el(
      "select",
      { "aria-label": label },
      ...massUnits.map((name) => el("option", { value: name }, name)),
    );
    unit.value = value;
    return unit;
  }

  /** @param {string} label */
  #figure(label) {
    return el("input", {
      type: "text",
      inputmode: "decimal",
      class: "figure",
      "aria-label": label,
      autocomplete: "off",
    });
  }

  /**
   * @param {HTMLElement} into
   * @param {Row} made
   * @param {() => Row[]} rows
   */
  #addRow(into, made, rows) {
    made.row.append(
      el(
        "button",
        {
          type: "button",
          class: "quiet out",
          "aria-label": words.removeRow(""),
          onclick: () => {
            made.row.remove();
            rows().splice(rows().indexOf(made), 1);
            this.#addUp();
          },
        },
        "\u2715",
      ),
    );
    into.append(made.row);
    return made;
  }

  /** @param {HTMLElement} into */
  #shelfRow(into) {
    const oil = this.#oilInput(words.oil);
    const cells = {
      have: this.#figure(words.have),
      haveUnit: this.#unit(words.have, "kg"),
      paid: this.#figure(words.paid),
      pack: this.#figure(words.pack),
      packUnit: this.#unit(words.pack, "kg"),
    };
    const tell = (/** @type {string} */ text) =>
      el("span", { class: "cell-word", "aria-hidden": "true" }, text);
    const pair = (/** @type {string} */ label, /** @type {Node[]} */ ...inside) =>
      el("span", { class: "cell" }, tell(label), ...inside);
    const row = el(
      "div",
      { class: "row shelf-row" },
      oil,
      pair(words.have, cells.have, cells.haveUnit),
      pair(words.paid, cells.paid),
      pair(words.pack, cells.pack, cells.packUnit),
    );
    return this.#addRow(into, { row, oil, cells }, () => this.shelf);
  }

  /** @param {HTMLElement} into */
  #barRow(into) {
    const oil = this.#oilInput(words.oil);
    const share = this.#figure(words.shareOf);
    share.addEventListener("input", () => this.#addUp());
    const row = el(
      "div",
      { class: "row bar-row" },
      oil,
      el("span", { class: "cell" }, share, el("span", { "aria-hidden": "true" }, "%")),
    );
    return this.#addRow(into, { row, oil, cells: { share } }, () => this.bar);
  }

  #addUp() {
    const shares = this.bar.map((row) => typedNumber(row.cells.share.value) ?? 0);
    const all = shares.reduce((sum, share) => sum + share, 0);
    put(this.sum, all > 0 ? words.sum(short(all) + "\u00a0%") : "");
  }

  /**
   * @param {string} name
   * @param {[string, string][]} answers
   */
  #question(name, answers) {
    const set = name === "hardness" ? 2 : name === "cost" ? answers.length - 1 : 1;
    const choices = answers.map(([value, label], at) =>
      el(
        "label",
        {},
        el("input", { type: "radio", name, value, checked: at === set }),
        el("span", {}, label),
      ),
    );
    return el(
      "fieldset",
      { class: "question" },
      el("legend", {}, questionNames[name]),
      el("span", { class: "choices" }, ...choices),
    );
  }

  #size() {
    return el(
      "p",
      { class: "size" },
      el("label", {}, words.bars + " ", this.bars),
      " ",
      el("label", {}, words.barWeight + " ", this.barWeight),
    );
  }

  /**
   * @param {HTMLElement} at
   * @param {string} text
   */
  #refuse(at, text) {
    put(this.fault, text);
    at.setAttribute("aria-invalid", "true");
    at.focus();
    return null;
  }

  /**
   * A figure with a point for the engine, or null once it was refused.
   * @param {Row} row
   * @param {string} cell
   */
  #read(row, cell) {
    const value = typedNumber(row.cells[cell].value);
    return value === null ? this.#refuse(row.cells[cell], words.needFigure(row.oil.value)) : written(value);
  }

  async #find() {
    put(this.fault, "");
    for (const marked of this.at.querySelectorAll("[aria-invalid]")) marked.removeAttribute("aria-invalid");
    const files = await this.#makeShelf();
    const brief = files && (await this.#makeBrief(files));
    if (brief) this.lay(brief, briefFile, true);
  }

  /** @returns {Promise<Files | null>} */
  async #makeShelf() {
    /** @type {Files} */
    let files = {};
    const rows = this.shelf.filter((row) => row.oil.value.trim() !== "");
    if (rows.length === 0) return files;
    files[shelfFile] = emptyShelf;
    const currency = await this.engine.run(
      ["edit", shelfFile, "currency", this.currency.value.trim()],
      files,
    );
    if (currency.exit !== 0) return this.#refuse(this.currency, currency.error);
    files = { ...files, ...currency.files };
    for (const row of rows) {
      const [have, paid, pack] = ["have", "paid", "pack"].map((cell) =>
        cell !== "have" && row.cells.paid.value.trim() === "" ? "" : this.#read(row, cell),
      );
      if (have === null || paid === null || pack === null) return null;
      const price = paid === "" ? [] : ["--paid", paid + " for " + pack + " " + row.cells.packUnit.value];
      const today = new Date().toISOString().slice(0, 10);
      const ran = await this.engine.run(
        [
          "shelf",
          "receive",
          "--shelf",
          shelfFile,
          "--date",
          today,
          ...price,
          "--",
          row.oil.value.trim(),
          have + " " + row.cells.haveUnit.value,
        ],
        files,
      );
      if (ran.exit !== 0) return this.#refuse(row.oil, ran.error || ran.text);
      files = { ...files, ...ran.files };
    }
    return files;
  }

  /**
   * @param {Files} files
   * @returns {Promise<Files | null>}
   */
  async #makeBrief(files) {
    const rows = this.bar.filter((row) => row.oil.value.trim() !== "");
    const shares = rows.map((row) => this.#read(row, "share"));
    if (shares.includes(null)) return null;
    const from = rows.length
      ? rows.map((row, at) => row.oil.value.trim() + ":" + shares[at]).join(",")
      : "olive:100";
    const chosen = /** @type {HTMLInputElement[]} */ ([
      ...this.at.querySelectorAll("input[type=radio]:checked"),
    ]);
    const want = chosen
      .map((choice) => choice.value)
      .filter(Boolean)
      .join(", ");
    const priced = this.shelf.some((row) => row.cells.paid.value.trim() !== "");
    const costWish = chosen.find((choice) => choice.name === "cost");
    if (costWish?.value && !priced) return this.#refuse(costWish, words.needPrices);
    const using = files[shelfFile] ? ["--using", shelfFile] : [];
    const ran = await this.engine.run(
      ["blend", "--from=" + from, "--want", want || "no softer", ...using, "--save-brief", briefFile],
      files,
    );
    if (!ran.files[briefFile]) return this.#refuse(rows[0]?.oil ?? this.bars, ran.error || ran.text);
    let made = { ...files, ...ran.files };
    const bars = typedNumber(this.bars.value);
    const weight = typedNumber(this.barWeight.value);
    if (bars === null) return this.#refuse(this.bars, words.needFigure(words.bars));
    if (weight === null) return this.#refuse(this.barWeight, words.needFigure(words.barWeight));
    const edits = [
      ["make", "{bars: " + written(bars) + ", each: " + written(weight) + " g, weighed: cured}"],
    ];
    if (rows.length === 0) edits.push(["compared-with", "plain bar"]);
    for (const [path, value] of edits) {
      const edited = await this.engine.run(["edit", briefFile, path, value], made);
      if (edited.exit !== 0) return this.#refuse(this.bars, edited.error);
      made = { ...made, ...edited.files };
    }
    return made;
  }
}

/** @type {Record<string, string>} */
const questionNames = { hardness: "Hardness", lather: "Lather", conditioning: "Conditioning", cost: "Cost" };
