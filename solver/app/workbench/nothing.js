// Nothing fits: the rails that collide are tied together, and each way out is a button that says what it
// changes.

import { button, byId, el, fill } from "./dom.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Reply} Reply
 * @typedef {import("./contract.js").Change} Change
 * @typedef {import("./contract.js").Edit} Edit
 */

/**
 * @param {string} head
 * @param {Change[]} changes
 * @param {(edits: Edit[]) => void} apply
 */
function changeButtons(head, changes, apply) {
  if (changes.length === 0) return [];
  // A way that no file can say, such as more on the shelf than there is, is told and not pressed.
  const buttons = changes.map(({ say, edits }) => {
    return el("li", {}, edits.length > 0 ? button(say, () => apply(edits), { class: "way" }) : say);
  });
  return [el("h3", {}, head), el("ul", { class: "ways" }, ...buttons)];
}

/** What is drawn: a button that has the cursor must not be drawn anew when only the reach has come. */
/** @type {Reply | null | undefined} */
let drawn;

/**
 * Shows what collides and the ways out, or nothing where a blend was found.
 * @param {Reply | null} reply
 * @param {(edits: Edit[]) => void} apply
 */
export function showNothing(reply, apply) {
  if (reply === drawn) return;
  drawn = reply;
  const at = byId("nothing");
  at.hidden = reply === null;
  if (reply === null) {
    fill(at);
    return;
  }
  const wishes = reply.conflict?.wishes ?? [];
  const alone = wishes.length === 1;
  const proved = alone ? words.aloneProved : words.nothingProved;
  const said = reply.conflict?.proved ? proved : words.nothingSaid;
  const ways = changeButtons(words.waysOut, reply.ways_out ?? [], apply);
  const buys = changeButtons(words.buying, reply.purchases ?? [], apply);
  fill(
    at,
    el("h2", {}, words.nothing),
    el("p", {}, said),
    ...(alone ? [] : [el("p", {}, words.collideHere)]),
    el("ul", { class: "knots" }, ...wishes.map((wish) => el("li", {}, wish.wish))),
    ...(ways.length + buys.length === 0 ? [el("p", {}, words.noWays)] : [...ways, ...buys]),
  );
}

/**
 * Draws the cord that ties the colliding rails together, in the margin beside them.
 * @param {HTMLElement} railsAt
 * @param {HTMLElement[]} tied
 */
export function tie(railsAt, tied) {
  let cord = railsAt.querySelector(".cord");
  if (tied.length === 0) {
    cord?.remove();
    return;
  }
  cord ??= railsAt.appendChild(el("div", { class: "cord", "aria-hidden": "true" }));
  const middles = tied.map((rail) => rail.offsetTop + 22);
  const top = Math.min(...middles);
  const line = /** @type {HTMLElement} */ (cord);
  line.style.top = top + "px";
  line.style.height = Math.max(...middles) - top + "px";
  const knots = middles.map((middle) => {
    const knot = el("span", { class: "knot" });
    knot.style.top = middle - top + "px";
    return knot;
  });
  fill(line, ...knots);
}
