// Keeping the workshop: one file saved and opened, a folder where one is served or picked, and a draft in the
// browser.

import { isBrief } from "./bench.js";
import { button, byId, el, fill, put } from "./dom.js";
import { Draft } from "./draft.js";
import { showFiles } from "./file_window.js";
import { canPickFolder, pickFolder } from "./folder.js";
import { writing } from "./numbers.js";
import { words } from "./words.js";
import { packWorkshop, saveFile, unpackWorkshop } from "./workshop_file.js";

/**
 * @typedef {import("./bench.js").Bench} Bench
 * @typedef {import("./bench.js").View} View
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {import("./workshop_file.js").Kept} Kept
 */

function clock() {
  return new Date().toTimeString().slice(0, 5);
}

export class Keeper {
  /** @type {Files | null} */
  #saved = null;
  #unsavedSince = "";
  #savedAt = "";
  /** @type {import("./folder.js").PickedFolder | null} */
  #folder = null;
  draft = new Draft();

  /**
   * @param {Bench} bench
   * @param {Engine} engine
   */
  constructor(bench, engine) {
    this.bench = bench;
    this.engine = engine;
    this.canPickFolder = !engine.served && canPickFolder();
    this.undo = button(words.undo, () => bench.undo());
    this.redo = button(words.redo, () => bench.redo());
    this.picker = el("input", {
      type: "file",
      hidden: true,
      accept: ".barwright,.json,application/json",
      onchange: () => this.#openPicked(),
      "aria-label": words.openSaved,
    });
    fill(
      byId("tools"),
      this.undo,
      this.redo,
      button(words.files, () => this.showFile(bench.brief, 0)),
      ...(engine.served ? [] : [button(words.open, () => this.open())]),
      ...(!this.canPickFolder ? [] : [button(words.openFolder, () => this.openFolder())]),
      button(words.save, () => this.save(), { class: "main", id: "save" }),
      this.picker,
    );
    window.addEventListener("beforeunload", (event) => {
      if (this.#unsavedSince && !this.#storeKeeps()) event.preventDefault();
    });
    document.addEventListener("keydown", (event) => this.#key(event));
    if (!engine.served) this.draft.watchTabs(() => this.#otherTab());
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const typing = event.target instanceof HTMLInputElement && event.target.type === "text";
    const key = event.key.toLowerCase();
    if (key === "s") this.save();
    else if (key === "z" && !typing && !document.querySelector("dialog"))
      event.shiftKey ? this.bench.redo() : this.bench.undo();
    else return;
    event.preventDefault();
  }

  #storeKeeps() {
    return this.draft.holds && !this.draft.full && !this.engine.served;
  }

  /**
   * These files are the saved ones, unless they were never saved.
   * @param {Files} files
   * @param {boolean} [unsaved]
   */
  take(files, unsaved = false) {
    this.#saved = unsaved ? {} : { ...files };
    this.#unsavedSince = "";
    this.#savedAt = "";
  }

  #changed() {
    const saved = this.#saved ?? {};
    const paths = Object.keys(this.bench.files);
    return (
      paths.length !== Object.keys(saved).length ||
      paths.some((path) => saved[path] !== this.bench.files[path])
    );
  }

  /** @param {View} view */
  show(view) {
    this.undo.disabled = !view.undoable;
    this.redo.disabled = !view.redoable;
    byId("tools").hidden = view.phase === "first";
    this.#showBriefs(view);
    if (view.phase === "first") return put(byId("saved-state"), "");
    if (this.#changed()) {
      this.#unsavedSince ||= clock();
      put(byId("saved-state"), words.unsavedSince(this.#unsavedSince));
    } else {
      this.#unsavedSince = "";
      put(byId("saved-state"), this.#savedAt ? words.savedAt(this.#savedAt) : words.asItCame);
    }
    document.body.classList.toggle("unsaved", this.#unsavedSince !== "");
    if (!view.held && this.#unsavedSince && !this.engine.served) this.#keepDraft();
  }

  /** @param {View} view */
  #showBriefs(view) {
    const at = byId("brief-choice");
    const briefs = Object.keys(view.files)
      .filter((path) => isBrief(view.files[path]))
      .sort();
    const drawn = JSON.stringify([briefs, view.phase === "first"]);
    if (at.dataset.drawn !== drawn) {
      at.dataset.drawn = drawn;
      if (view.phase === "first" || briefs.length === 0) return fill(at);
      const choice = el(
        "select",
        { id: "brief-select", onchange: (event) => this.bench.turnTo(event.target.value) },
        ...briefs.map((path) => el("option", { value: path }, path)),
      );
      fill(at, el("label", { for: "brief-select" }, words.brief), " ", choice);
    }
    const choice = at.querySelector("select");
    if (choice) choice.value = view.brief;
  }

  /** Saves the folder that is served, or one file. */
  async save() {
    const files = this.bench.files;
    const folder = this.engine.served ? this.engine : this.#folder;
    if (folder) {
      const changed = await folder.save(files);
      if (changed.length > 0) return this.notice(words.changedOnDisk(changed.join(", ")));
    } else if (!(await saveFile(packWorkshop(this.#kept())))) {
      return;
    }
    this.#saved = { ...files };
    this.#savedAt = clock();
    this.draft.forget();
    this.show(this.bench);
  }

  /** @returns {Kept} */
  #kept() {
    return { files: this.bench.files, brief: this.bench.brief, comma: writing.comma };
  }

  open() {
    this.picker.value = "";
    this.picker.click();
  }

  async #openPicked() {
    const file = this.picker.files?.[0];
    const kept = file ? unpackWorkshop(await file.text()) : null;
    if (!kept) return this.notice(words.notAWorkshop);
    this.#folder = null;
    this.openKept(kept);
  }

  async openFolder() {
    const folder = await pickFolder();
    if (!folder) return;
    const files = await folder.open();
    if (Object.keys(files).length === 0) return this.notice(words.emptyFolder);
    this.#folder = folder;
    this.take(files);
    this.bench.lay(files);
  }

  /** @param {Kept} kept */
  openKept(kept, unsaved = false) {
    writing.comma = kept.comma;
    this.take(kept.files, unsaved);
    this.bench.lay(kept.files, kept.brief);
  }

  /**
   * Carries on with a draft this browser kept.
   * @param {Kept} kept
   * @param {boolean} newest  the one that is kept up from now on
   */
  openDraft(kept, newest) {
    if (newest) this.draft.adopt();
    this.openKept(kept, true);
  }

  /**
   * A sentence above the bench that stays until it is shut.
   * @param {string} text
   * @param {...HTMLElement} buttons
   */
  notice(text, ...buttons) {
    const at = byId("notices");
    for (const old of at.children) if (old.firstChild?.textContent === text) old.remove();
    const box = el(
      "div",
      { class: "notice", role: "status" },
      el("p", {}, text),
      ...buttons,
      button(words.close, () => box.remove()),
    );
    at.append(box);
  }

  #keepDraft() {
    const wasFull = this.draft.full;
    if (this.draft.keep(this.#kept())) {
      const forget = button(words.draftForget, () => this.draft.forget());
      this.notice(words.draftKept, forget);
    }
    if (this.draft.full && !wasFull) this.notice(words.storeFull);
  }

  #otherTab() {
    const take = button(words.takePen, () => {
      this.draft.takePen();
      fill(byId("notices"));
      this.show(this.bench);
    });
    this.notice(words.otherTab, take);
  }

  /**
   * The files as they are written, one of them open at a line.
   * @param {string} path
   * @param {number} line
   */
  showFile(path, line) {
    showFiles(this.bench.files, path, line, (files) => this.bench.replace(files));
  }
}
