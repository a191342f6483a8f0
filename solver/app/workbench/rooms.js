// The rooms beside the bench and the way between them.

import { button, byId, fill } from "./dom.js";
import { ExploreRoom, isLook } from "./explore.js";
import { isRecipe, SwapRoom } from "./swap.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./bench.js").Bench} Bench
 * @typedef {"bench" | "swap" | "explore"} Name
 */

export class Rooms {
  /** @type {Name} */
  #here = "bench";

  /**
   * @param {Engine} engine
   * @param {Bench} bench
   * @param {() => void} moved
   */
  constructor(engine, bench, moved) {
    this.bench = bench;
    this.moved = moved;
    this.swap = new SwapRoom(byId("swap"), engine, bench);
    this.explore = new ExploreRoom(byId("explore"), engine, bench);
    /** @type {Record<Name, HTMLButtonElement>} */
    this.doors = {
      bench: button(words.benchRoom, () => this.go("bench"), { class: "door" }),
      swap: button(words.swapRoom, () => this.go("swap"), { class: "door" }),
      explore: button(words.exploreRoom, () => this.go("explore"), { class: "door" }),
    };
    fill(byId("rooms"), ...Object.values(this.doors));
  }

  /** @param {Name} name */
  go(name) {
    if (name === this.#here) return;
    if (this.#here !== "bench") this[this.#here].leave();
    this.#here = name;
    this.moved();
    if (name !== "bench") this[name].enter();
  }

  /**
   * Shows the doors that lead somewhere; whether one stands at the bench.
   * @param {Bench} bench
   */
  show(bench) {
    const texts = Object.values(bench.files);
    const first = bench.phase === "first";
    if (first) this.#here = "bench";
    this.doors.swap.hidden = !texts.some(isRecipe);
    this.doors.explore.hidden = !texts.some(isLook);
    byId("rooms").hidden = first || (this.doors.swap.hidden && this.doors.explore.hidden);
    for (const [name, door] of Object.entries(this.doors)) {
      if (name === this.#here) door.setAttribute("aria-current", "page");
      else door.removeAttribute("aria-current");
    }
    byId("swap").hidden = this.#here !== "swap";
    byId("explore").hidden = this.#here !== "explore";
    byId("brief-choice").hidden = this.#here !== "bench";
    return this.#here === "bench";
  }
}
