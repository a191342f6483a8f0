// The weigh-out: grams, lye and cautions of a full answer to the very wish that stands here, and the foot that
// is always in view.

import { byId, el, fill, put } from "./dom.js";
import { fixed, isInOunces, percent, scaleOf, weight } from "./numbers.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Reply} Reply
 * @typedef {import("./contract.js").Recipe} Recipe
 * @typedef {import("./contract.js").Caution} Caution
 * @typedef {import("./contract.js").Manner} Manner
 * @typedef {import("./bench.js").View} View
 */

/**
 * The sign and the word of a caution: never told by its colour alone.
 * @param {string} severity
 */
function severityWord(severity) {
  return severity === "danger" ? words.danger : severity === "note" ? words.note : words.warning;
}

/** @param {Caution[]} cautions */
function cautionList(cautions) {
  const items = cautions.map(({ severity, say }) =>
    el(
      "li",
      { class: "caution " + (severity === "danger" || severity === "note" ? severity : "warning") },
      el("strong", {}, severityWord(severity)),
      " ",
      say,
    ),
  );
  return el("ul", { class: "cautions" }, ...items);
}

/**
 * @param {Recipe} recipe
 * @param {boolean} ounces
 */
function oilTable(recipe, ounces) {
  const left = new Map(recipe.if_forgotten.map((line) => [line.line, line]));
  const rows = recipe.oils.map(({ oil, percent: share, grams }) => {
    const forgotten = left.get(oil);
    const spare = forgotten ? percent(forgotten.superfat_percent) : "";
    const says = forgotten
      ? el(
          "small",
          { class: forgotten.lye_heavy ? "heavy" : "" },
          forgotten.lye_heavy ? words.lyeHeavy(spare) : words.ifForgotten(spare),
        )
      : "";
    return el(
      "tr",
      {},
      el("th", { scope: "row" }, oil, " ", says),
      el("td", { class: "n strong" }, weight(grams, ounces)),
      el("td", { class: "n" }, percent(share)),
    );
  });
  const added = (recipe.additives ?? [])
    .filter((line) => typeof line.grams === "number")
    .map((line) =>
      el(
        "tr",
        {},
        el("th", { scope: "row" }, line.name),
        el("td", { class: "n strong" }, weight(line.grams, ounces)),
        el("td", {}),
      ),
    );
  const heads = [words.weighOil, words.weighGrams, words.weighShare];
  return el(
    "table",
    {},
    el(
      "thead",
      {},
      el("tr", {}, ...heads.map((head, at) => el("th", { scope: "col", class: at > 0 ? "n" : "" }, head))),
    ),
    el("tbody", {}, ...rows, ...added),
    el(
      "tfoot",
      {},
      el(
        "tr",
        {},
        el("th", { scope: "row" }, words.oilsTogether),
        el("td", { class: "n strong" }, weight(recipe.oils_grams, ounces)),
        el("td", {}),
      ),
    ),
  );
}

/**
 * @param {Recipe} recipe
 * @param {boolean} ounces
 */
function lyeList(recipe, ounces) {
  const steps = recipe.lye_pot_order.map(({ name, grams, how }) =>
    el(
      "li",
      {},
      el("span", { class: "lye-name" }, name),
      el("strong", { class: "lye-grams" }, weight(grams, ounces)),
      el("span", { class: "lye-how" }, how),
    ),
  );
  const pure = recipe.lye.map(({ alkali, purity_percent: purity }) => words.pureAs(alkali, percent(purity)));
  const about = [
    words.lyeOf(percent(recipe.lye_concentration_percent)),
    ...pure,
    words.inThePot(weight(recipe.total_grams, ounces)),
  ];
  return [
    el("p", { class: "burns" }, el("strong", {}, words.danger), " ", words.burns),
    el("ol", { class: "lye" }, ...steps),
    el("p", { class: "about" }, about.join("; ") + "."),
  ];
}

/** @param {Manner[]} manners */
function mannerList(manners) {
  const told = manners.filter((manner) => manner.dropped || manner.price);
  if (told.length === 0) return [];
  const items = told.map((manner) => {
    const price = manner.price
      ? words.mannersPrice(fixed(manner.price.change, 1) + " " + manner.price.unit)
      : words.gaveWay;
    return el("li", {}, el("strong", {}, manner.name), ": " + manner.rule + "; " + price);
  });
  return [el("h3", {}, words.manners), el("ul", { class: "manners" }, ...items)];
}

/** @param {Reply} full */
function costLine(full) {
  const cost = full.cost;
  if (!cost) return "";
  const money = (/** @type {number | undefined} */ value) =>
    typeof value !== "number" ? "" : fixed(value, 2) + " " + (cost.currency ?? "");
  return words.costs(money(cost.per_kg), money(cost.per_bar), money(cost.per_batch));
}

export class WeighOut {
  /** @type {Reply | null} */
  #drawn = null;

  /**
   * @param {() => void} sheet  opens the whole answer in words
   * @param {() => void} bench  makes the bench sheet
   * @param {(value: string) => void} scale  changes the scales of the brief
   */
  constructor(sheet, bench, scale) {
    const weights = /** @type {HTMLSelectElement} */ (byId("weights"));
    weights.addEventListener("change", () => scale(scaleOf(weights.value === "ounces")));
    byId("print").addEventListener("click", () => window.print());
    byId("sheet").addEventListener("click", sheet);
    byId("bench-sheet").addEventListener("click", bench);
    byId("all-cautions").addEventListener("click", () => {
      byId("cautions-head").scrollIntoView({ block: "center" });
      byId("cautions-head").focus();
    });
  }

  /** @param {View} view */
  show(view) {
    const full = view.phase === "rest" && !view.held ? view.full : null;
    document.body.classList.toggle("weighed", full !== null);
    for (const id of ["print", "sheet", "bench-sheet", "weights"])
      /** @type {HTMLButtonElement} */ (byId(id)).disabled = full === null;
    this.#foot(view);
    if (full === this.#drawn && full !== null) return;
    this.#drawn = full;
    if (!full?.recipe) {
      fill(byId("weigh-body"), el("p", { class: "no-grams" }, words.noGrams));
      return;
    }
    const { recipe } = full;
    const ounces = isInOunces([...recipe.oils, ...recipe.lye].map((line) => line.grams));
    /** @type {HTMLSelectElement} */ (byId("weights")).value = ounces ? "ounces" : "grams";
    const { superfat, cautions = [] } = full;
    const spare = superfat
      ? [
          words.superfat + " " + percent(superfat.aim),
          words.atWorst + " " + percent(superfat.worst),
          words.atMost + " " + percent(superfat.most),
        ].join(", ")
      : "";
    fill(
      byId("weigh-body"),
      el(
        "p",
        { class: "weigh-title" },
        el("strong", {}, full.brief ?? ""),
        full.make ? ", " + full.make.say : "",
      ),
      el(
        "div",
        { class: "weigh-columns" },
        el(
          "div",
          {},
          el("h3", {}, words.weighOils),
          oilTable(recipe, ounces),
          el("p", { class: "about" }, costLine(full)),
        ),
        el(
          "div",
          {},
          el("h3", {}, words.theLye),
          ...lyeList(recipe, ounces),
          el("p", { class: "spare" }, spare),
        ),
      ),
      el("h3", { id: "cautions-head", tabindex: -1 }, words.cautions),
      cautionList(cautions),
      el("p", { class: "about" }, words.sheetTest),
      ...mannerList(full.manners ?? []),
    );
  }

  /** @param {View} view */
  #foot(view) {
    const superfat = (view.full ?? view.now)?.superfat;
    const known = superfat !== undefined && view.phase !== "nothing";
    put(byId("foot-worst"), known ? percent(superfat.worst) : words.noSuperfat);
    put(byId("foot-aim"), known ? words.superfat + " " + percent(superfat.aim) : words.superfat);
    put(byId("foot-caution"), words.burns);
    byId("all-cautions").hidden = view.full === null;
  }
}
