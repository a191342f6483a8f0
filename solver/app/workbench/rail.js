// One rail: a property against the bar in the hand, in steps of what is just noticed. The wish is a band with
// two ends, the reach is hatched, the answer is a dot with its doubt.

import { el, put } from "./dom.js";
import { fixed, signed, writing } from "./numbers.js";
import { openBand, spokenBand, typedEnd, wishUnit } from "./wishes.js";
import { railWords, words } from "./words.js";

/**
 * @typedef {import("./contract.js").Measured} Measured
 * @typedef {import("./contract.js").Reach} Reach
 * @typedef {import("./wishes.js").Band} Band
 * @typedef {"low" | "high"} Side
 * @typedef {{band: Band | null, measured: Measured | undefined, reach: Reach | undefined, reachKnown: boolean,
 *            settled: boolean, collides: boolean}} Shown
 */

// A slider goes in quarters of a step; its last place at either side is an open end.
const quarters = 4;
const farthest = 6.5 * quarters;
/** @type {Side[]} */
const sides = ["low", "high"];

/**
 * Where a difference stands on the rail, in per cent of its length.
 * @param {number} steps
 */
function place(steps) {
  return ((Math.max(-6.5, Math.min(6.5, steps)) + 6.5) / 13) * 100;
}

export class Rail {
  /** @type {Band} */
  band = { ...openBand };
  /** @type {Measured} */
  #measured = { unit: "points", step: 1 };
  #known = false;
  /** Fields with a figure half typed, which no reply may write over. */
  /** @type {Set<Side>} */
  #typing = new Set();

  /**
   * @param {string} name
   * @param {(name: string, band: Band, held: boolean) => void} pull
   * @param {() => void} letGo
   */
  constructor(name, pull, letGo) {
    this.name = name;
    this.pull = pull;
    this.letGo = letGo;
    const told = railWords[name] ?? { name, less: words.less, more: words.more, means: "" };
    this.title = told.name;
    this.wish = el("p", { class: "rail-wish" });
    this.answer = el("p", { class: "rail-answer" });
    this.fault = el("p", { class: "rail-fault", role: "alert" });
    this.tag = el("span", { class: "rail-tag", hidden: true }, words.collide);
    this.reachMark = el("span", { class: "reach", hidden: true });
    this.bandMark = el("span", { class: "band", hidden: true });
    this.doubtMark = el("span", { class: "doubt", hidden: true });
    this.dot = el("span", { class: "dot", hidden: true });
    this.axis = this.#drawAxis();
    /** @type {Record<Side, HTMLInputElement>} */
    this.sliders = { low: this.#slider("low"), high: this.#slider("high") };
    /** @type {Record<Side, HTMLInputElement>} */
    this.figures = { low: this.#figure("low"), high: this.#figure("high") };
    /** @type {Record<Side, HTMLElement>} */
    this.units = { low: el("span", { class: "end-unit" }), high: el("span", { class: "end-unit" }) };
    this.axis.append(this.sliders.high, this.sliders.low);
    const poles = el(
      "div",
      { class: "poles", "aria-hidden": "true" },
      el("span", {}, told.less),
      el("span", {}, told.more),
    );
    this.root = el(
      "section",
      { class: "rail", "data-rail": name, "aria-label": told.name },
      el(
        "div",
        { class: "rail-name" },
        el("h3", {}, told.name, this.tag),
        el("p", { class: "rail-means" }, told.means),
      ),
      el("div", { class: "rail-track" }, poles, this.axis),
      el("div", { class: "rail-says" }, this.answer),
      el("div", { class: "rail-ends" }, this.#end("low"), this.wish, this.#end("high")),
      this.fault,
    );
  }

  #drawAxis() {
    const axis = el("div", { class: "axis" }, el("span", { class: "line" }), this.reachMark, this.bandMark);
    for (let step = -6; step <= 6; step++) {
      const tick = el("span", { class: step === 0 ? "tick hand" : "tick" });
      tick.style.left = place(step) + "%";
      axis.append(tick);
    }
    axis.append(this.doubtMark, this.dot);
    return axis;
  }

  /** @param {Side} side */
  #slider(side) {
    const slider = el("input", {
      type: "range",
      class: "slider " + side,
      min: -farthest,
      max: farthest,
      step: 1,
      "aria-label": words.endOf(this.title, side === "low"),
      oninput: () => this.#slide(side),
      onchange: () => this.letGo(),
      onblur: () => this.letGo(),
    });
    return slider;
  }

  /** @param {Side} side */
  #figure(side) {
    return el("input", {
      type: "text",
      class: "figure",
      inputmode: "decimal",
      autocomplete: "off",
      placeholder: "\u2013",
      oninput: () => this.#typing.add(side),
      onchange: () => this.#typed(side),
    });
  }

  /** @param {Side} side */
  #end(side) {
    const low = side === "low";
    const press = (/** @type {number} */ by) => () => this.#press(side, by);
    return el(
      "div",
      { class: "end " + side },
      el("span", { class: "end-name" }, low ? words.least : words.most),
      el(
        "button",
        {
          type: "button",
          "aria-label": words.buttonOf(this.title, low, false),
          title: words.stepDown,
          onclick: press(-1),
        },
        "\u2212",
      ),
      this.figures[side],
      el(
        "button",
        {
          type: "button",
          "aria-label": words.buttonOf(this.title, low, true),
          title: words.stepUp,
          onclick: press(1),
        },
        "+",
      ),
      this.units[side],
    );
  }

  /**
   * The value a slider's place stands for, on the figures that are typed for this unit.
   * @param {number} at
   */
  #valueAt(at) {
    if (Math.abs(at) >= farthest) return null;
    const grain = this.#measured.step >= 4 ? 1 : this.#measured.step >= 1 ? 0.5 : 0.01;
    return Number((Math.round(((at / quarters) * this.#measured.step) / grain) * grain).toFixed(2));
  }

  /** @param {Side} side */
  #slide(side) {
    const at = Number(this.sliders[side].value);
    const low = side === "low";
    const wrongSide = low ? at >= farthest : at <= -farthest;
    const value = wrongSide ? this.#valueAt(low ? farthest - 1 : 1 - farthest) : this.#valueAt(at);
    this.#set(side, value, true);
  }

  /**
   * @param {Side} side
   * @param {number} by
   */
  #press(side, by) {
    const now = this.band[side];
    const value = now === null ? 0 : Number((now + by * this.#measured.step).toFixed(4));
    this.#set(side, Math.abs(value) > 12 * this.#measured.step ? null : value, false);
  }

  /** @param {Side} side */
  #typed(side) {
    const value = typedEnd(this.figures[side].value);
    if (value === undefined) {
      put(this.fault, words.notAFigure(writing.comma));
      this.figures[side].setAttribute("aria-invalid", "true");
      return;
    }
    this.#set(side, value, false);
  }

  /**
   * @param {Side} side
   * @param {number | null} value
   * @param {boolean} held
   */
  #set(side, value, held) {
    this.#typing.delete(side);
    const other = side === "low" ? "high" : "low";
    const band = { ...this.band, [side]: value };
    if (band.low !== null && band.high !== null && band.low > band.high) band[other] = value;
    put(this.fault, "");
    if (band.low === this.band.low && band.high === this.band.high) return this.#drawBand();
    this.band = band;
    this.#drawBand();
    this.pull(this.name, band, held);
  }

  /**
   * Draws what is known; the band is left alone while it is being pulled.
   * @param {Shown} shown
   * @param {boolean} held
   */
  show(shown, held) {
    if (shown.measured) this.#measured = shown.measured;
    this.#known = shown.measured !== undefined;
    if (!held) {
      this.root.classList.toggle("other-unit", shown.band === null);
      this.band = { ...(shown.band ?? openBand) };
    }
    this.root.classList.toggle("collides", shown.collides);
    this.tag.hidden = !shown.collides;
    for (const side of sides) {
      this.sliders[side].disabled = !this.#known || shown.band === null;
      this.figures[side].disabled = this.sliders[side].disabled;
      put(this.units[side], wishUnit(this.#measured.unit));
      this.figures[side].setAttribute(
        "aria-label",
        words.figureOf(this.title, side === "low", this.#measured.unit),
      );
    }
    this.#drawBand(shown.band === null);
    this.#drawReach(shown.reach, shown.reachKnown);
    this.#drawAnswer(shown);
  }

  #drawBand(otherUnit = false) {
    const { low, high } = this.band;
    const { step, unit } = this.#measured;
    const open = low === null && high === null;
    const left = place(low === null ? -6.5 : low / step);
    const right = place(high === null ? 6.5 : high / step);
    this.bandMark.hidden = open || otherUnit;
    this.bandMark.style.left = left + "%";
    this.bandMark.style.width = Math.max(0.4, right - left) + "%";
    this.bandMark.classList.toggle("open-low", low === null);
    this.bandMark.classList.toggle("open-high", high === null);
    const spoken = otherUnit ? words.otherUnit : spokenBand(this.band, unit, words.noWish);
    put(this.wish, spoken);
    for (const side of sides) {
      const value = this.band[side];
      const slider = this.sliders[side];
      const end = side === "low" ? -farthest : farthest;
      const at =
        value === null ? end : Math.max(1 - farthest, Math.min(farthest - 1, (value / step) * quarters));
      slider.value = String(at);
      slider.classList.toggle("open", value === null);
      const alone =
        value === null
          ? side === "low"
            ? words.openLow
            : words.openHigh
          : spokenBand({ ...openBand, [side]: value }, unit, "");
      slider.setAttribute("aria-valuetext", alone);
      const figure = this.figures[side];
      if (!this.#typing.has(side)) {
        figure.value =
          value === null ? "" : fixed(value, Number.isInteger(value) ? 0 : 2).replace("\u2212", "-");
        figure.removeAttribute("aria-invalid");
      }
    }
  }

  /**
   * @param {Reach | undefined} reach
   * @param {boolean} known
   */
  #drawReach(reach, known) {
    const mark = this.reachMark;
    const { low, high } = reach ?? { low: null, high: null };
    mark.hidden = low === null || high === null;
    if (low === null || high === null || !reach) return;
    const { step, unit } = this.#measured;
    const money = !/points|^C$/.test(unit);
    const left = place(low / step);
    mark.style.left = left + "%";
    mark.style.width = Math.max(0.6, place(high / step) - left) + "%";
    mark.classList.toggle("old", !known);
    mark.classList.toggle("open-low", !reach.low_proved);
    mark.classList.toggle("open-high", !reach.high_proved);
    mark.title = words.reachOf(
      signed(low, money),
      signed(high, money),
      reach.low_proved && reach.high_proved,
    );
  }

  /** @param {Shown} shown */
  #drawAnswer({ measured, settled }) {
    const difference = measured?.difference;
    const known = measured !== undefined && typeof difference === "number";
    this.dot.hidden = !known;
    this.doubtMark.hidden = !known;
    if (!known) {
      this.answer.replaceChildren();
      return;
    }
    const { step, unit, difference_low: low = difference, difference_high: high = difference } = measured;
    const money = !/points|^C$/.test(unit);
    const steps = difference / step;
    const beyond = steps > 6.5 ? "right" : steps < -6.5 ? "left" : "";
    this.dot.style.left = place(steps) + "%";
    this.dot.className = "dot" + (settled ? "" : " hollow") + (beyond ? " beyond-" + beyond : "");
    put(this.dot, beyond === "right" ? words.beyondRight : beyond === "left" ? words.beyondLeft : "");
    this.doubtMark.style.left = place(low / step) + "%";
    this.doubtMark.style.width = place(high / step) - place(low / step) + "%";
    this.doubtMark.hidden = high - low < step / 50;
    const figure = signed(difference, money);
    const doubt = this.doubtMark.hidden ? "" : words.doubt(signed(low, money), signed(high, money));
    this.answer.replaceChildren(
      el(
        "span",
        { class: "feel" },
        measured.words ?? "",
        measured.sure && measured.words ? el("em", {}, ", " + words.sure) : "",
      ),
      el(
        "span",
        { class: "amount" },
        figure + " " + (money ? wishUnit(unit) : unit === "C" ? "C" : ""),
        doubt ? el("small", {}, " (" + doubt + ")") : "",
      ),
    );
    this.answer.title = measured.leans_on ?? "";
  }

  /** What is said of it when the answer has settled. */
  spoken() {
    const { words: feel, difference } = this.#measured;
    return this.#known && feel && typeof difference === "number" ? this.title + ": " + feel + "." : "";
  }
}
