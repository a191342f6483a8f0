// The loaf, cut to its shares: a slice per oil, as wide as its share. Narrow screens draw it as a list.

import { button, el, fill } from "./dom.js";
import { percent } from "./numbers.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Reply} Reply
 * @typedef {NonNullable<Reply["blend"]>} Blend
 */

// Every oil keeps its tint as long as the page is open, unless its neighbour has the same.
/** @type {Map<string, number>} */
const tints = new Map();
const tintCount = 9;

/**
 * @param {string} oil
 * @param {number} beside the tint of the slice before
 */
function tintOf(oil, beside) {
  const tint = tints.get(oil) ?? tints.size % tintCount;
  tints.set(oil, tint);
  return tint === beside ? (tint + 4) % tintCount : tint;
}

export class Loaf {
  #drawn = "";
  /** @type {Map<string, number>} */
  #shares = new Map();

  /**
   * @param {HTMLElement} into
   * @param {((oil: string, share: number) => void) | null} rule  what a slice's button does; null: it has none
   * @param {{says: (oil: string) => string, sign: string}} [sign]
   */
  constructor(into, rule, sign = { says: words.ruleSays, sign: "\u2026" }) {
    this.into = into;
    this.rule = rule;
    this.sign = sign;
    this.slices = el("ul", { class: "slices", "aria-label": words.loaf });
    this.mark = el("p", { class: "loaf-mark", hidden: true });
    fill(into, this.slices, this.mark);
  }

  /**
   * @param {Blend} blend
   * @param {boolean} before  it is the last one that fitted, not an answer to this wish
   * @param {boolean} settled
   */
  show(blend, before, settled) {
    this.into.classList.toggle("before", before);
    this.into.classList.toggle("unsettled", !settled && !before);
    this.into.hidden = blend.length === 0;
    this.mark.hidden = !before;
    fill(this.mark, el("strong", {}, words.before), " " + words.beforeSays);
    const drawn = JSON.stringify(blend.map((share) => [share.oil, share.percent]));
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    this.#draw([...blend].sort((a, b) => b.percent - a.percent));
  }

  /** @param {Blend} blend */
  #draw(blend) {
    const slices = /** @type {HTMLElement[]} */ ([...this.slices.children]);
    this.#shares = new Map(blend.map((share) => [share.oil, share.percent]));
    const kept = new Map(slices.map((slice) => [slice.dataset.oil ?? "", slice]));
    let tint = -1;
    const next = blend.map(({ oil, percent: share }) => {
      const slice = kept.get(oil) ?? this.#slice(oil);
      slice.classList.remove(`tint-${slice.dataset.tint}`);
      tint = tintOf(oil, tint);
      slice.dataset.tint = String(tint);
      slice.classList.add(`tint-${tint}`);
      slice.style.flexGrow = String(share);
      slice.style.setProperty("--share", String(share));
      slice.classList.toggle("narrow", share < 13);
      slice.classList.toggle("thin", share < 3);
      fill(/** @type {Element} */ (slice.querySelector(".slice-share")), percent(share));
      return slice;
    });
    fill(this.slices, ...next);
  }

  /**
   * Marks one oil as struck out.
   * @param {string} oil
   */
  strike(oil) {
    for (const slice of this.slices.children) {
      slice.classList.toggle("struck", /** @type {HTMLElement} */ (slice).dataset.oil === oil);
    }
  }

  /** @param {string} oil */
  #slice(oil) {
    const name = el("span", { class: "slice-name" }, oil);
    const slice = el(
      "li",
      { class: "slice", "data-oil": oil, title: oil },
      name,
      el("span", { class: "slice-share" }),
    );
    const { rule } = this;
    if (rule) {
      const says = this.sign.says(oil);
      const press = () => rule(oil, this.#shares.get(oil) ?? 0);
      slice.append(
        button(this.sign.sign, press, { class: "quiet slice-out", "aria-label": says, title: says }),
      );
    }
    return slice;
  }
}

/**
 * The blend in one line, for the ear.
 * @param {Blend} blend
 */
export function blendInWords(blend) {
  return blend.map(({ oil, percent: share }) => words.share(oil, percent(share))).join("; ");
}
