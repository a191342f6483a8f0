// What the rooms beside the bench share: one question to the engine at a time, the newest wins.

import { button, el, fill, put } from "./dom.js";
import { Ended } from "./engine.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {import("./contract.js").Ran} Ran
 * @typedef {import("./bench.js").Bench} Bench
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

/** A room beside the bench: a file is chosen, a question about it asked, what comes back told. */
export class Room {
  /**
   * @param {Engine} engine
   * @param {Bench} bench
   * @param {string} id of the choice of files
   * @param {() => void} chosen
   */
  constructor(engine, bench, id, chosen) {
    this.bench = bench;
    this.asker = new Asker(engine);
    this.file = el("select", { id, onchange: chosen });
    this.says = el("p", { class: "room-says", role: "status" });
    this.stop = button(words.stop, () => this.leave(), { hidden: true });
    this.told = el("div", {});
  }

  /**
   * Offers the files of a kind, the one chosen before first; whether there is any.
   * @param {(text: string) => boolean} isOne
   */
  offer(isOne) {
    const { files } = this.bench;
    const paths = Object.keys(files)
      .filter((path) => isOne(files[path]))
      .sort();
    const kept = this.file.value;
    fill(this.file, ...paths.map((path) => el("option", { value: path }, path)));
    if (paths.includes(kept)) this.file.value = kept;
    return paths.length > 0;
  }

  leave() {
    this.asker.stop();
    this.stop.hidden = true;
    if (this.says.textContent === words.looking) put(this.says, words.lookStopped);
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
