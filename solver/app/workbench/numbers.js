// Figures as they are shown and typed. Files always get a point; the screen the mark the maker chose.

/** How decimals are written here: chosen once, the other mark is refused. */
export const writing = { comma: false };

/**
 * A figure with so many decimals.
 * @param {number} value
 * @param {number} decimals
 */
export function fixed(value, decimals) {
  const text = Math.abs(value).toFixed(decimals);
  const sign = value < 0 && Number(text) !== 0 ? "\u2212" : "";
  return sign + (writing.comma ? text.replace(".", ",") : text);
}

/**
 * A figure as short as is honest: none, one or two decimals by its size.
 * @param {number} value
 */
export function short(value) {
  const size = Math.abs(value);
  return fixed(value, size >= 9.95 || Number.isInteger(value) ? 0 : 1);
}

/**
 * A share of the oils or a percentage.
 * @param {number} value
 */
export function percent(value) {
  return short(value).replace(/[.,]0$/, "") + "\u00a0%";
}

/**
 * A difference, its sign always before it.
 * @param {number} value
 * @param {boolean} money
 */
export function signed(value, money) {
  const text = money ? fixed(value, 2) : short(value);
  return value > 0 && /[1-9]/.test(text) ? "+" + text : text;
}

/**
 * What was weighed, to a tenth where the scale shows tenths.
 * @param {number} value
 */
export function grams(value) {
  return (
    fixed(value, Number.isInteger(value) ? 0 : Math.abs(value * 10 - Math.round(value * 10)) < 1e-6 ? 1 : 2) +
    "\u00a0g"
  );
}

/**
 * What was typed, or null where it is no figure in the chosen writing. Nothing is guessed: 1,5 is refused
 * where a point was chosen, and 1.5 where a comma was.
 * @param {string} typed
 * @returns {number | null}
 */
export function typedNumber(typed) {
  const text = typed.trim().replace("\u2212", "-");
  const form = writing.comma ? /^[-+]?\d{1,7}(,\d{1,4})?$/ : /^[-+]?\d{1,7}(\.\d{1,4})?$/;
  return form.test(text) ? Number(text.replace(",", ".")) : null;
}

/**
 * A figure as files want it: with a point, without needless decimals.
 * @param {number} value
 */
export function written(value) {
  return String(Number(value.toFixed(4)));
}
