// Figures as they are shown and typed. Files always get a point; the screen the mark the maker chose.

/** How decimals are written here: chosen once, the other mark is refused. */
export const writing = { comma: false };

// Exact by definition (international avoirdupois ounce, 1959).
const gramsInOunce = 28.349523125;

// A scale in ounces shows hundredths at the finest.
const inHundredths = (/** @type {number} */ grams) => (grams / gramsInOunce) * 100;

/**
 * The steps of the scales as a brief has them. It is the engine that rounds to what a scale in ounces shows, the
 * alkali down; the page only writes its grams as ounces.
 * @param {boolean} ounces
 */
export function scaleOf(ounces) {
  return ounces ? "{oils: 0.05 oz, lye: 0.01 oz}" : "{oils: 1 g, lye: 0.1 g}";
}

/**
 * Whether these were weighed on a scale in ounces: all of them are whole hundredths.
 * @param {number[]} grams
 */
export function isInOunces(grams) {
  return grams.every((one) => Math.abs(inHundredths(one) - Math.round(inHundredths(one))) < 1e-4);
}

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
 * What was weighed: grams to a tenth where the scale shows tenths, ounces to a hundredth.
 * @param {number} grams
 * @param {boolean} ounces
 */
export function weight(grams, ounces) {
  if (ounces) return fixed(inHundredths(grams) / 100, 2) + "\u00a0oz";
  const tenths = Math.abs(grams * 10 - Math.round(grams * 10)) < 1e-6;
  return fixed(grams, Number.isInteger(grams) ? 0 : tenths ? 1 : 2) + "\u00a0g";
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
