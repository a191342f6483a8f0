// The swap: an oil is struck out of a recipe, and the nearest bar without it, or with little of it, is found.

import { button, el, fill, put } from "./dom.js";
import { Loaf } from "./loaf.js";
import { fixed, percent, short } from "./numbers.js";
import { faultOf, Room } from "./room.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {import("./contract.js").Reply} Reply
 * @typedef {import("./bench.js").Bench} Bench
 */

/**
 * Whether this file is a recipe.
 * @param {string} text
 */
export function isRecipe(text) {
  return /^blend:/m.test(text);
}

export class SwapRoom extends Room {
  #out = "";
  /** @type {Map<string, number>} */
  #shares = new Map();

  /**
   * @param {HTMLElement} at
   * @param {Engine} engine
   * @param {Bench} bench
   */
  constructor(at, engine, bench) {
    super(engine, bench, "swap-recipe", () => this.#weigh());
    this.using = el(
      "select",
      { id: "swap-using", onchange: () => this.#find() },
      el("option", { value: "shelf" }, words.swapShelf),
      el("option", { value: "library" }, words.swapLibrary),
    );
    const oldAt = el("div", { class: "loaf" });
    const newAt = el("div", { class: "loaf" });
    this.oldLoaf = new Loaf(oldAt, (oil) => this.#strike(oil), { says: words.strikeOut, sign: "\u2715" });
    this.newLoaf = new Loaf(newAt, null);
    this.stay = el("input", { type: "range", min: 0, max: 0, step: 1, class: "plain-slider" });
    this.stay.addEventListener("input", () => this.#sayStay());
    this.stay.addEventListener("change", () => this.#find());
    this.stayLabel = el("label", { class: "stay", hidden: true }, el("span", {}), this.stay);
    const choice = el("p", { class: "room-choice" });
    choice.append(
      el("label", {}, words.swapRecipe + " ", this.file),
      " ",
      el("label", {}, words.swapUsing + " ", this.using),
    );
    fill(
      at,
      el("h2", {}, words.swapHead),
      el("p", {}, words.swapLead),
      choice,
      oldAt,
      this.stayLabel,
      this.says,
      this.stop,
      newAt,
      this.told,
    );
  }

  async enter() {
    if (!this.offer(isRecipe)) return put(this.says, words.noRecipe);
    await this.#weigh();
  }

  async #weigh() {
    this.#out = "";
    this.stayLabel.hidden = true;
    this.#clear();
    const ran = await this.asker.ask(["weigh", this.file.value, "--json"], this.bench.files);
    if (!ran) return;
    put(this.says, faultOf(ran) || words.strikeOne);
    const oils = ran.json?.recipe?.oils ?? [];
    this.#shares = new Map(oils.map((line) => [line.oil, line.percent]));
    this.oldLoaf.show(oils, false, true);
  }

  #clear() {
    this.newLoaf.show([], false, true);
    fill(this.told);
  }

  /** @param {string} oil */
  #strike(oil) {
    this.#out = oil;
    this.oldLoaf.strike(oil);
    this.stayLabel.hidden = false;
    this.stay.max = String(Math.floor(this.#shares.get(oil) ?? 0));
    this.stay.value = "0";
    this.#sayStay();
    this.#find();
  }

  #sayStay() {
    const share = percent(Number(this.stay.value));
    const says = this.stay.value === "0" ? words.nothingStays(this.#out) : words.mayStay(this.#out, share);
    put(/** @type {Element} */ (this.stayLabel.firstElementChild), says);
    this.stay.setAttribute("aria-valuetext", says);
  }

  /** @param {string[]} more */
  #args(...more) {
    const kept = this.stay.value === "0" ? [] : ["--keep-at-most", this.stay.value + " %"];
    return ["swap", this.file.value, "--out=" + this.#out, ...kept, "--using", this.using.value, ...more];
  }

  async #find() {
    if (!this.#out) return;
    put(this.says, words.looking);
    this.stop.hidden = false;
    const ran = await this.asker.ask(this.#args("--json"), this.bench.files);
    if (!ran) return;
    this.stop.hidden = true;
    const reply = ran.json;
    const fault = faultOf(ran);
    if (fault || !reply?.swap) {
      this.#clear();
      put(this.says, fault || words.noSwap);
      return;
    }
    put(this.says, reply.status === "optimal" ? words.swapProved : words.swapFound);
    this.newLoaf.show(reply.blend ?? [], false, true);
    this.#tell(reply);
  }

  /** @param {Reply} reply */
  #tell(reply) {
    const { feel, saving, outside } = /** @type {NonNullable<Reply["swap"]>} */ (reply.swap);
    const felt = [
      [words.dryBar, feel.dry_bar],
      [words.inLather, feel.lather],
      [words.skinAfter, feel.skin_after],
    ];
    const rows = felt.map(([name, steps]) => {
      const mark = el("span", { class: "felt-bar" });
      mark.style.width = Math.min(100, Number(steps) * 33) + "%";
      const scale = el("span", { class: "felt", "aria-hidden": "true" }, mark);
      return el(
        "li",
        {},
        el("span", {}, String(name)),
        scale,
        el("strong", {}, words.steps(fixed(Number(steps), 1))),
      );
    });
    const money = saving
      ? words.saves(
          fixed(saving.per_bar, 2) + " " + saving.currency,
          fixed(saving.per_batch, 2) + " " + saving.currency,
        )
      : "";
    const names = [
      outside.new_names.length ? words.newNames(outside.new_names.join(", ")) : "",
      outside.gone_names.length ? words.goneNames(outside.gone_names.join(", ")) : "",
      outside.new_tags.length ? words.newTags(outside.new_tags.join(", ")) : "",
    ];
    fill(
      this.told,
      el("h3", {}, words.felt),
      el("p", { class: "about" }, words.feltStep),
      el("ul", { class: "felts" }, ...rows),
      ...(money ? [el("p", { class: "strong" }, money)] : []),
      ...names.filter(Boolean).map((line) => el("p", { class: "about" }, line)),
      button(words.keepRecipe, () => this.#keep(), { class: "main" }),
    );
  }

  /** The new recipe as a file of the workshop, written by the engine. */
  async #keep() {
    const { files } = this.bench;
    const stem = this.file.value.replace(/\.yaml$/, "") + "-new";
    let name = stem + ".yaml";
    for (let more = 2; files[name] !== undefined; more++) name = stem + "-" + short(more) + ".yaml";
    const ran = await this.asker.ask(this.#args("--save", name), files);
    if (!ran) return;
    if (ran.files[name] === undefined) return put(this.says, ran.error || words.engineGone);
    this.bench.replace({ [name]: ran.files[name] });
    put(this.says, words.keptAs(name));
  }
}
