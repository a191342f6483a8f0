// A rule on one oil of the loaf: pinned, held above or below a share, or left out; the rest is found around it.

import { button, dialog, el, put } from "./dom.js";
import { fixed, percent, typedNumber, written } from "./numbers.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Edit} Edit
 * @typedef {import("./contract.js").OilRule} OilRule
 */

/**
 * What a rule says.
 * @param {OilRule} rule
 */
export function ruleInWords({ oil, least, most }) {
  if (most === 0) return words.ruleOut(oil);
  if (least !== null && least === most) return words.rulePinned(oil, percent(least));
  const ends = [
    least === null ? "" : words.ruleLeast(percent(least)),
    most === null ? "" : words.ruleMost(percent(most)),
  ];
  return oil + ": " + ends.filter(Boolean).join(", ");
}

/**
 * Asks what the rule shall be.
 * @param {string} oil
 * @param {number} share        as it stands now, in per cent
 * @param {string} path         where the rule stands, or would
 * @param {boolean} ruled       there is one
 * @param {(path: string, value: string | null) => void} set
 */
export function askRule(oil, share, path, ruled, set) {
  const figure = el("input", {
    type: "text",
    class: "figure",
    inputmode: "decimal",
    value: fixed(share, Number.isInteger(share) ? 0 : 1),
    "aria-label": words.shareOf,
    autocomplete: "off",
  });
  const fault = el("p", { class: "form-fault", role: "alert" });
  const choose = (/** @type {(share: string) => string} */ rule) => () => {
    const typed = typedNumber(figure.value);
    if (typed === null || typed < 0 || typed > 100) {
      put(fault, words.notAShare);
      figure.setAttribute("aria-invalid", "true");
      figure.focus();
      return;
    }
    close();
    set(path, rule(written(typed) + " %"));
  };
  const plain = (/** @type {string | null} */ value) => () => {
    close();
    set(path, value);
  };
  const close = dialog(
    oil,
    el("p", {}, words.ruleLead),
    el("p", { class: "rule-share" }, figure, " %"),
    fault,
    el(
      "p",
      { class: "dialog-buttons" },
      button(
        words.rulePin,
        choose((at) => `{least: ${at}, most: ${at}}`),
        { class: "main" },
      ),
      button(
        words.ruleAtMost,
        choose((at) => `{most: ${at}}`),
      ),
      button(
        words.ruleAtLeast,
        choose((at) => `{least: ${at}}`),
      ),
      button(words.ruleLeaveOut, plain("{most: 0 %}")),
      ...(ruled ? [button(words.ruleOff, plain(null))] : []),
      button(words.close, () => close()),
    ),
  );
}
