// The workshop on the bench: its files, the wish as it stands, and the search for it. The newest wish wins; at
// most one search runs, and one waits.

import { Ended } from "./engine.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {import("./contract.js").Edit} Edit
 * @typedef {import("./contract.js").Reply} Reply
 * @typedef {import("./contract.js").Reach} Reach
 * @typedef {import("./contract.js").Fault} Fault
 * @typedef {"first" | "looking" | "rest" | "nothing" | "trouble" | "stopped"} Phase
 *
 * @typedef {Bench} View  what the page draws: the bench as it stands
 */

// A search that a newer wish has made stale may end by itself within this time.
const staleGrace = 100;
const slowAfter = 1000;
// A held rail that has not moved for so long may have its reach looked for.
const restAfter = 120;

/**
 * Whether this file is a brief that 'blend' answers.
 * @param {string} text
 */
export function isBrief(text) {
  return /^(brief|want):/m.test(text) && !/^(sales-plan|recipe):/m.test(text);
}

export class Bench {
  /** @type {Files} */
  files = {};
  /** Path of the brief. */
  brief = "";
  /** @type {Phase} */
  phase = "first";
  /** A wish is being pulled. */
  held = false;
  /** The search has taken longer than a second. */
  slow = false;
  /** How many wishes were asked, and which of them `now` answers. */
  asked = 0;
  answers = 0;
  /** Why a change was not taken. */
  fault = "";
  /** @type {Fault[]} */
  faults = [];
  /** The files are sound, but what they ask for is not safe. */
  refused = false;
  /** @type {Reply | null} the newest answer to the wish as it stands */
  now = null;
  /** @type {Reply | null} weighed for the very files that stand here, or null: only this has grams */
  full = null;
  /** @type {Reply | null} the last blend that fitted */
  before = null;
  /** @type {Record<string, Reach>} */
  reach = {};
  /** The reach is that of this very wish. */
  reachKnown = false;

  /** @type {Map<string, Edit>} */
  #edits = new Map();
  /** @type {{files: Files, brief: string}[]} */
  #past = [];
  /** @type {{files: Files, brief: string}[]} */
  #future = [];
  #stepOpen = false;
  #asked = false;
  #busy = false;
  #stop = false;
  #wake = () => {};
  /** @type {AbortController | null} */
  #running = null;
  /** What runs may take long; a change or a draft is short and always let to its end. */
  #long = false;

  /**
   * @param {Engine} engine
   * @param {(view: View) => void} show
   */
  constructor(engine, show) {
    this.engine = engine;
    this.show = show;
  }

  get undoable() {
    return this.#past.length > 0;
  }

  get redoable() {
    return this.#future.length > 0;
  }

  #tell() {
    this.show(this);
  }

  /**
   * Puts a workshop on the bench and looks for its blend.
   * @param {Files} files
   * @param {string} [brief]
   */
  lay(files, brief) {
    this.files = { ...files };
    this.#past = [];
    this.#future = [];
    this.reach = {};
    this.before = null;
    this.now = null;
    const briefs = Object.keys(files)
      .filter((path) => isBrief(files[path]))
      .sort();
    this.brief =
      brief && files[brief] !== undefined
        ? brief
        : briefs.includes("firmer-bar.yaml")
          ? "firmer-bar.yaml"
          : (briefs[0] ?? "");
    if (this.brief === "") {
      this.phase = "trouble";
      this.faults = [{ file: "", line: 0, column: 0, path: "", message: words.noBrief, suggestions: [] }];
      this.#tell();
      return;
    }
    this.ask();
  }

  /**
   * Turns to another brief of the same workshop.
   * @param {string} brief
   */
  turnTo(brief) {
    this.#remember();
    this.brief = brief;
    this.before = null;
    this.now = null;
    this.reach = {};
    this.ask();
  }

  /**
   * Changes lines of the files. While a rail is held the same step of the history goes on.
   * @param {Edit[]} edits
   * @param {boolean} [held]
   */
  change(edits, held = false) {
    if (!this.#stepOpen) this.#remember();
    this.#stepOpen = held;
    this.held = held;
    for (const edit of edits) this.#edits.set(edit.file + "\n" + edit.path, edit);
    this.ask();
  }

  /** Lets go of a rail. */
  letGo() {
    if (!this.held) return;
    this.held = false;
    this.#stepOpen = false;
    this.ask();
  }

  /**
   * Takes whole files in place of those with the same path; one step of the history.
   * @param {Files} files
   */
  replace(files) {
    this.#remember();
    this.files = { ...this.files, ...files };
    this.ask();
  }

  #remember() {
    this.#past.push({ files: this.files, brief: this.brief });
    if (this.#past.length > 200) this.#past.shift();
    this.#future = [];
  }

  undo() {
    this.#travel(this.#past, this.#future);
  }

  redo() {
    this.#travel(this.#future, this.#past);
  }

  /**
   * @param {{files: Files, brief: string}[]} from
   * @param {{files: Files, brief: string}[]} to
   */
  #travel(from, to) {
    const step = from.pop();
    if (!step) return;
    to.push({ files: this.files, brief: this.brief });
    this.files = step.files;
    this.brief = step.brief;
    this.#edits.clear();
    this.#stepOpen = false;
    this.held = false;
    this.ask();
  }

  /** Ends the search that runs; what was found stays, without grams. */
  stop() {
    this.#stop = true;
    this.#running?.abort();
  }

  /** Asks for the blend of the wish as it stands now. */
  ask() {
    this.asked++;
    this.#asked = true;
    this.#wake();
    this.full = null;
    this.reachKnown = false;
    this.fault = "";
    this.phase = "looking";
    this.#tell();
    if (this.#busy) {
      const stale = this.#running;
      if (stale && this.#long) setTimeout(() => stale.abort(), staleGrace);
      return;
    }
    this.#busy = true;
    this.#loop().finally(() => (this.#busy = false));
  }

  async #loop() {
    while (this.#asked) {
      this.#asked = false;
      this.#stop = false;
      const slow = setTimeout(() => {
        this.slow = true;
        this.#tell();
      }, slowAfter);
      try {
        await this.#once();
      } catch (fault) {
        if (!(fault instanceof Ended)) this.#broken(String(fault instanceof Error ? fault.message : fault));
        else if (this.#stop && !this.#asked) this.#end("stopped");
      }
      clearTimeout(slow);
      this.slow = false;
      if (!this.#asked) this.#tell();
    }
  }

  /** @param {Phase} phase */
  #end(phase) {
    this.phase = phase;
    this.#tell();
  }

  /** @param {string} why */
  #broken(why) {
    this.refused = false;
    this.faults = [{ file: "", line: 0, column: 0, path: "", message: why, suggestions: [] }];
    this.phase = "trouble";
  }

  /** One wish from the change of the file to the weighed answer; left early where a newer wish has come. */
  async #once() {
    const asking = this.asked;
    if (!(await this.#applyEdits())) return;
    const draft = await this.#blend("--draft");
    this.answers = asking;
    if (!this.#take(draft) || this.#asked) return;
    if (this.held) {
      if (await this.#rests()) await this.#findReach();
      return;
    }
    const full = await this.#blend();
    if (this.#asked || !this.#take(full)) return;
    if (!this.held) this.#settle(full, draft);
    await this.#findReach();
  }

  /** Whether the hand rests for a moment: no new wish comes. */
  #rests() {
    return new Promise((/** @type {(rested: boolean) => void} */ resolve) => {
      const rest = setTimeout(() => resolve(true), restAfter);
      this.#wake = () => {
        clearTimeout(rest);
        resolve(false);
      };
    });
  }

  /**
   * @param {Reply} full
   * @param {Reply} draft
   */
  #settle(full, draft) {
    if (full.conflict || full.status === "infeasible") return this.#end("nothing");
    const same = full.brief_hash !== undefined && full.brief_hash === draft.brief_hash;
    this.full = same && full.recipe ? full : null;
    this.before = full;
    this.#end(full.recipe ? "rest" : "stopped");
  }

  /**
   * Writes the waiting changes into the files, all or none; false where other files were laid meanwhile.
   */
  async #applyEdits() {
    const edits = [...this.#edits.entries()];
    this.#edits.clear();
    this.#long = false;
    const from = this.files;
    const files = { ...from };
    try {
      for (const [, { file, path, value }] of edits) {
        const ran = await this.#run(
          ["edit", file, path, ...(value === null ? ["--remove"] : [value])],
          files,
        );
        if (ran.exit === 0) Object.assign(files, ran.files);
        else this.#refuse(ran.error || ran.text);
      }
    } catch (fault) {
      // What was not written waits on, unless a newer wish took its place.
      if (fault instanceof Ended && this.files === from) this.#edits = new Map([...edits, ...this.#edits]);
      throw fault;
    }
    if (this.files !== from) return false;
    this.files = files;
    return true;
  }

  /** @param {string} why */
  #refuse(why) {
    this.fault = why;
    this.#past.pop();
    this.#stepOpen = false;
    this.held = false;
  }

  /**
   * @param {string[]} args
   * @param {Files} files
   */
  async #run(args, files) {
    this.#running = new AbortController();
    if (this.#stop) this.#running.abort();
    try {
      return await this.engine.run(args, files, this.#running.signal);
    } finally {
      this.#running = null;
    }
  }

  /**
   * @param {string[]} how
   * @returns {Promise<Reply>}
   */
  async #blend(...how) {
    this.#long = !how.includes("--draft");
    const ran = await this.#run(["blend", this.brief, "--json", ...how], this.files);
    if (!ran.json) throw new Error(ran.error || words.engineGone);
    return ran.json;
  }

  /**
   * Shows a reply; false where it says that a file cannot be taken.
   * @param {Reply} reply
   */
  #take(reply) {
    if (reply.errors?.length || reply.error) {
      this.faults = reply.errors?.length
        ? reply.errors
        : [{ file: "", line: 0, column: 0, path: "", message: reply.error ?? "", suggestions: [] }];
      this.refused = reply.status === "refused";
      this.phase = "trouble";
      return false;
    }
    this.faults = [];
    this.now = reply;
    this.#tell();
    return true;
  }

  async #findReach() {
    const reply = await this.#blend("--reach");
    if (this.#asked) return;
    for (const [name, measured] of Object.entries({ ...reply.properties, cost: reply.cost })) {
      if (measured?.reach) this.reach[name] = measured.reach;
    }
    this.reachKnown = true;
    this.#tell();
  }
}
