// Looking around before any money is spent: what to buy, truly different blends as small loaves, and what each
// step of feel costs, a point of which can be laid out as a loaf.

import { button, el, fill, put } from "./dom.js";
import { blendInWords, Loaf } from "./loaf.js";
import { fixed, percent } from "./numbers.js";
import { faultOf, Room } from "./room.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Explored} Explored
 * @typedef {import("./contract.js").Plan} Plan
 * @typedef {import("./bench.js").Bench} Bench
 * @typedef {NonNullable<import("./contract.js").Reply["blend"]>} Blend
 */

/**
 * Whether this file is a brief that 'explore' answers.
 * @param {string} text
 */
export function isLook(text) {
  return /^sales-plan:/m.test(text);
}

/**
 * @param {Blend} blend
 * @param {string} size
 */
function loafOf(blend, size) {
  const at = el("div", { class: "loaf " + size });
  new Loaf(at, null).show(blend, false, true);
  return at;
}

export class ExploreRoom extends Room {
  /**
   * @param {HTMLElement} at
   * @param {Engine} engine
   * @param {Bench} bench
   */
  constructor(at, engine, bench) {
    super(engine, bench, "explore-brief", () => this.#look());
    const choice = el("p", { class: "room-choice" }, el("label", {}, words.brief + " ", this.file));
    fill(
      at,
      el("h2", {}, words.exploreHead),
      el("p", {}, words.exploreLead),
      choice,
      this.says,
      this.stop,
      this.told,
    );
  }

  async enter() {
    if (!this.offer(isLook)) return put(this.says, words.noLook);
    await this.#look();
  }

  async #look() {
    fill(this.told);
    put(this.says, words.looking);
    this.stop.hidden = false;
    const ran = await this.asker.ask(["explore", this.file.value, "--json"], this.bench.files);
    if (!ran) return;
    this.stop.hidden = true;
    const { bars, plan, currency = "" } = ran.json ?? {};
    const fault = faultOf(ran);
    if (fault || !bars) return put(this.says, fault || words.noLookFound);
    put(this.says, ran.json?.brief ?? "");
    fill(
      this.told,
      ...(plan?.found ? planPart(plan, currency) : []),
      ...bars.flatMap((bar) => barPart(bar, currency)),
    );
  }
}

/**
 * @param {Plan} plan
 * @param {string} currency
 */
function planPart(plan, currency) {
  const money = (/** @type {number} */ value) => fixed(value, 2) + " " + currency;
  const rows = plan.buys.map((buy) =>
    el(
      "tr",
      {},
      el("td", { class: "n" }, fixed(buy.count, 0) + " \u00d7"),
      el("th", { scope: "row" }, buy.product || buy.oil),
      el("td", {}, buy.pack),
      el("td", { class: "n" }, money(buy.pack_price)),
    ),
  );
  const heads = [words.buyPacks, words.buyWhat, words.buyPack, words.buyPrice];
  const head = el("tr", {}, ...heads.map((text) => el("th", { scope: "col" }, text)));
  return [
    el("h3", {}, words.toBuy),
    plan.buys.length
      ? el("table", {}, el("thead", {}, head), el("tbody", {}, ...rows))
      : el("p", {}, words.buyNothing),
    el(
      "p",
      {},
      words.buyCash(money(plan.delivery), money(plan.cash)) + (plan.proved ? " " + words.buyProved : ""),
    ),
  ];
}

/**
 * @param {Explored} bar
 * @param {string} currency
 */
function barPart(bar, currency) {
  /** @type {HTMLElement[]} */
  const parts = [el("h3", { class: "explored" }, bar.for), loafOf(bar.blend, "middle")];
  if (bar.alternatives.length > 0) {
    const others = bar.alternatives.map((other) => {
      return el(
        "li",
        {},
        el("p", { class: "about" }, words.apart(percent(other.share_moved_percent))),
        loafOf(other.blend, "small"),
      );
    });
    parts.push(el("h4", {}, words.different), el("ul", { class: "others" }, ...others));
  }
  if (bar.curve && bar.curve.points.length > 1)
    parts.push(el("h4", {}, words.priceOfFeel), curvePart(bar.curve.points, currency));
  return parts;
}

/**
 * The curve of cost against feel: each point a button that lays its blend out beneath.
 * @param {{cost_per_kg: number, feel_steps: number, blend: Blend}[]} points
 * @param {string} currency
 */
function curvePart(points, currency) {
  const costs = points.map((point) => point.cost_per_kg);
  const steps = points.map((point) => point.feel_steps);
  const part = (/** @type {number} */ value, /** @type {number[]} */ all) => {
    const [least, most] = [Math.min(...all), Math.max(...all)];
    return most > least ? (value - least) / (most - least) : 0.5;
  };
  const chosen = el("div", { class: "chosen", "aria-live": "polite" });
  const dots = points.map((point) => {
    const says = words.curvePoint(fixed(point.cost_per_kg, 2) + " " + currency, fixed(point.feel_steps, 1));
    const dot = button("", () => choose(), {
      class: "point",
      "aria-label": says + ": " + blendInWords(point.blend),
      title: says,
    });
    dot.style.left = 4 + 92 * part(point.feel_steps, steps) + "%";
    dot.style.bottom = 8 + 80 * part(point.cost_per_kg, costs) + "%";
    const choose = () => {
      for (const other of dots) other.setAttribute("aria-pressed", String(other === dot));
      fill(chosen, el("p", { class: "about" }, says), loafOf(point.blend, "small"));
    };
    return dot;
  });
  const up = el("span", { class: "axis-up", "aria-hidden": "true" }, words.curveUp(currency));
  const along = el("span", { class: "axis-along", "aria-hidden": "true" }, words.curveAlong);
  return el("div", { class: "curve-part" }, el("div", { class: "curve" }, up, along, ...dots), chosen);
}
