// What the rooms beside the bench share: one question to the engine at a time, the newest wins.

import { Ended } from "./engine.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {import("./contract.js").Ran} Ran
 */

/** Asks the engine; a newer question ends the older, whose answer is not shown. */
export class Asker {
  /** @type {AbortController | null} */
  #running = null;

  /** @param {Engine} engine */
  constructor(engine) {
    this.engine = engine;
  }

  /**
   * The answer, or null where a newer question took its place.
   * @param {string[]} args
   * @param {Files} files
   * @returns {Promise<Ran | null>}
   */
  async ask(args, files) {
    this.#running?.abort();
    const mine = new AbortController();
    this.#running = mine;
    try {
      const ran = await this.engine.run(args, files, mine.signal);
      return this.#running === mine ? ran : null;
    } catch (fault) {
      if (fault instanceof Ended) return null;
      throw fault;
    }
  }

  /** Ends what is asked. */
  stop() {
    this.#running?.abort();
    this.#running = null;
  }
}

/**
 * What an engine's answer says went wrong, or nothing.
 * @param {Ran} ran
 */
export function faultOf(ran) {
  if (ran.json && !ran.json.error && !ran.json.errors?.length) return "";
  return (
    ran.json?.errors?.map((fault) => fault.message).join("\n") ||
    ran.json?.error ||
    ran.error ||
    words.engineGone
  );
}
