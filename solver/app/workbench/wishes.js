// Bands on a rail and the phrases they are written as. A band has two ends, each a difference from the bar
// in the hand in the property's own unit, or null where it is open.

import { fixed, short, typedNumber, written } from "./numbers.js";

/**
 * @typedef {import("./contract.js").Wish} Wish
 * @typedef {import("./contract.js").Measured} Measured
 * @typedef {{low: number | null, high: number | null}} Band
 */

/** @type {Band} */
export const openBand = { low: null, high: null };

/**
 * The unit as a wish writes it: without what the amount is of.
 * @param {string} unit
 */
export function wishUnit(unit) {
  return unit.replace(/ of (the )?oils$/, "");
}

/**
 * One end in words: 'at least 5 points above'.
 * @param {number} value
 * @param {boolean} low
 * @param {string} unit
 * @param {(value: number) => string} figure
 */
function endPhrase(value, low, unit, figure) {
  const size = figure(Math.abs(value));
  const amount = size + " " + (size === "1" ? unit.replace(/^points$/, "point") : unit);
  if (value === 0) return low ? "no less" : "no more";
  if (low) return value > 0 ? "at least " + amount + " above" : "no more than " + amount + " below";
  return value > 0 ? "no more than " + amount + " above" : "at least " + amount + " below";
}

/**
 * The phrase for a file, or null where the band is open at both ends. `kept` is what the old phrase said of
 * how sure the wish must be.
 * @param {Band} band
 * @param {string} unit
 * @param {string} kept
 * @returns {string | null}
 */
export function phraseOf(band, unit, kept = "") {
  const ends = phrases(band, wishUnit(unit), written);
  return ends.length === 0 ? null : ends.join(", ") + (kept ? ", " + kept : "");
}

/**
 * The same for the screen and the ear.
 * @param {Band} band
 * @param {string} unit
 * @param {string} open what an open band is called
 */
export function spokenBand(band, unit, open) {
  const money = !/points|^C$/.test(unit);
  const ends = phrases(band, wishUnit(unit), (value) => (money ? fixed(value, 2) : short(value)));
  return ends.length === 0 ? open : ends.join(", ");
}

/**
 * @param {Band} band
 * @param {string} unit
 * @param {(value: number) => string} figure
 */
function phrases(band, unit, figure) {
  const ends = [];
  if (band.low !== null) ends.push(endPhrase(band.low, true, unit, figure));
  if (band.high !== null) ends.push(endPhrase(band.high, false, unit, figure));
  return ends;
}

/**
 * The words at the end of a phrase that say how sure the wish must be.
 * @param {string} wish
 */
export function surenessOf(wish) {
  const found = /,\s*((?:typical|likely|worst-case)\b[^,]*)$/.exec(wish);
  return found ? found[1] : "";
}

/**
 * The band of a property among the wishes of a reply, as differences from the bar in the hand; null where
 * the wish is in another unit than the rail and so cannot be drawn.
 * @param {Wish[]} wishes
 * @param {string} name
 * @param {Measured} measured
 * @returns {Band | null}
 */
export function bandOf(wishes, name, measured) {
  const band = { ...openBand };
  for (const wish of wishes) {
    if (wish.property !== name) continue;
    if (wishUnit(wish.unit) !== wishUnit(measured.unit)) return null;
    const from = wish.compared ? 0 : measured.today;
    if (from === undefined) return null;
    if (typeof wish.low === "number") band.low = Math.max(band.low ?? -Infinity, wish.low - from);
    if (typeof wish.high === "number") band.high = Math.min(band.high ?? Infinity, wish.high - from);
  }
  return band;
}

/**
 * A typed end: null for an empty field, undefined where it is no figure.
 * @param {string} text
 * @returns {number | null | undefined}
 */
export function typedEnd(text) {
  if (text.trim() === "") return null;
  return typedNumber(text) ?? undefined;
}
