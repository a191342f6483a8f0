// The draft that the browser keeps until the workshop is saved. Of all tabs one writes it; another says so.

import { packWorkshop, unpackWorkshop } from "./workshop_file.js";

/**
 * @typedef {import("./workshop_file.js").Kept} Kept
 */

const draftKey = "barwright-draft";
const beforeKey = "barwright-draft-before";
const penKey = "barwright-pen";

export class Draft {
  #pen = String(Math.random());
  /** What stands in the store is of this tab's making, or was opened in it. */
  #mine = false;
  holds = true;
  full = false;

  /**
   * Keeps it, where this tab is the one to; true the first time since it was saved or forgotten. What an earlier
   * day left there is set aside, not lost.
   * @param {Kept} kept
   */
  keep(kept) {
    if (!this.holds) return false;
    try {
      const old = localStorage.getItem(draftKey);
      if (old !== null && !this.#mine) localStorage.setItem(beforeKey, old);
      localStorage.setItem(draftKey, packWorkshop(kept));
      const first = !this.#mine;
      this.#mine = true;
      return first;
    } catch {
      this.full = true;
      return false;
    }
  }

  forget() {
    if (!this.holds || !this.#mine) return;
    this.#mine = false;
    try {
      localStorage.removeItem(draftKey);
    } catch {
      this.full = true;
    }
  }

  /** The draft that was found is the one at work now. */
  adopt() {
    this.#mine = true;
  }

  /**
   * The drafts this browser kept, the newest first.
   * @returns {Kept[]}
   */
  found() {
    try {
      const all = [draftKey, beforeKey].map((key) => unpackWorkshop(localStorage.getItem(key) ?? ""));
      return all.filter((kept) => kept !== null);
    } catch {
      return [];
    }
  }

  /**
   * Asks whether another tab is the one that keeps the draft.
   * @param {() => void} lost  told when it is
   */
  watchTabs(lost) {
    window.addEventListener("storage", (event) => {
      if (event.key !== penKey || !event.newValue) return;
      const [what, who] = event.newValue.split(" ");
      if (who === this.#pen || !this.holds) return;
      if (what === "asks") return this.#call("holds");
      this.holds = false;
      lost();
    });
    this.#call("asks");
  }

  /** Takes the pen from the tab that has it. */
  takePen() {
    this.holds = true;
    this.#call("takes");
  }

  /** @param {string} what */
  #call(what) {
    try {
      localStorage.setItem(penKey, what + " " + this.#pen + " " + Math.random());
    } catch {
      this.full = true;
    }
  }
}
