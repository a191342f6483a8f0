// Keeping the workshop: one file saved and opened, the folder where one is served, and a draft in the browser.

import { isBrief } from "./bench.js";
import { button, byId, dialog, el, fill, put } from "./dom.js";
import { writing } from "./numbers.js";
import { words } from "./words.js";

/**
 * @typedef {import("./bench.js").Bench} Bench
 * @typedef {import("./bench.js").View} View
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {{files: Files, brief: string, comma: boolean}} Kept
 */

const format = "barwright workshop 1";
const draftKey = "barwright-draft";
const penKey = "barwright-pen";

/** @param {Kept} kept */
export function packWorkshop(kept) {
  return (
    JSON.stringify(
      { format, brief: kept.brief, decimals: kept.comma ? "comma" : "point", files: kept.files },
      null,
      1,
    ) + "\n"
  );
}

/**
 * The workshop in a saved file, or null where it is none.
 * @param {string} text
 * @returns {Kept | null}
 */
export function unpackWorkshop(text) {
  try {
    const kept = JSON.parse(text);
    const entries = Object.entries(kept.files);
    const sound =
      kept.format === format &&
      entries.length > 0 &&
      entries.every(([path, file]) => safePath(path) && typeof file === "string");
    return sound
      ? { files: Object.fromEntries(entries), brief: String(kept.brief), comma: kept.decimals === "comma" }
      : null;
  } catch {
    return null;
  }
}

/** @param {string} path */
function safePath(path) {
  return path !== "" && !path.startsWith("/") && !path.includes("\\") && !path.split("/").includes("..");
}

function clock() {
  return new Date().toTimeString().slice(0, 5);
}

export class Keeper {
  /** @type {Files | null} */
  #saved = null;
  #unsavedSince = "";
  #savedAt = "";
  #pen = String(Math.random());
  #hasPen = true;
  #storeFull = false;

  /**
   * @param {Bench} bench
   * @param {Engine} engine
   */
  constructor(bench, engine) {
    this.bench = bench;
    this.engine = engine;
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
      button(words.save, () => this.save(), { class: "main", id: "save" }),
      this.picker,
    );
    window.addEventListener("beforeunload", (event) => {
      if (this.#unsavedSince && !this.#storeKeeps()) event.preventDefault();
    });
    document.addEventListener("keydown", (event) => this.#key(event));
    if (!engine.served) this.#watchTabs();
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
    return this.#hasPen && !this.#storeFull && !this.engine.served;
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
    if (this.engine.served) {
      const changed = await this.engine.save(files);
      if (changed.length > 0) return this.notice(words.changedOnDisk(changed.join(", ")));
    } else if (
      !(await this.#saveFile(packWorkshop({ files, brief: this.bench.brief, comma: writing.comma })))
    ) {
      return;
    }
    this.#saved = { ...files };
    this.#savedAt = clock();
    if (this.#hasPen) this.#forgetDraft();
    this.show(this.bench);
  }

  /**
   * One file down; false where the maker thought better of it.
   * @param {string} text
   */
  async #saveFile(text) {
    const blob = new Blob([text], { type: "application/json" });
    const name = "workshop.barwright";
    const pick = /** @type {any} */ (window).showSaveFilePicker;
    if (pick) {
      try {
        const handle = await pick({
          suggestedName: name,
          types: [{ description: "barwright workshop", accept: { "application/json": [".barwright"] } }],
        });
        const out = await handle.createWritable();
        await out.write(blob);
        await out.close();
        return true;
      } catch (fault) {
        if (/** @type {Error} */ (fault).name === "AbortError") return false;
      }
    }
    const link = el("a", { href: URL.createObjectURL(blob), download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    return true;
  }

  open() {
    this.picker.value = "";
    this.picker.click();
  }

  async #openPicked() {
    const file = this.picker.files?.[0];
    const kept = file ? unpackWorkshop(await file.text()) : null;
    if (!kept) return this.notice(words.notAWorkshop);
    this.openKept(kept, false);
  }

  /**
   * @param {Kept} kept
   * @param {boolean} unsaved
   */
  openKept(kept, unsaved) {
    writing.comma = kept.comma;
    this.take(kept.files, unsaved);
    this.bench.lay(kept.files, kept.brief);
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
    if (!this.#hasPen) return;
    try {
      const first = localStorage.getItem(draftKey) === null;
      localStorage.setItem(
        draftKey,
        packWorkshop({ files: this.bench.files, brief: this.bench.brief, comma: writing.comma }),
      );
      if (first)
        this.notice(
          words.draftKept,
          button(words.draftForget, () => this.#forgetDraft()),
        );
    } catch {
      if (!this.#storeFull) this.notice(words.storeFull);
      this.#storeFull = true;
    }
  }

  #forgetDraft() {
    try {
      localStorage.removeItem(draftKey);
    } catch {
      this.#storeFull = true;
    }
  }

  /**
   * The draft that this browser kept, or null.
   * @returns {Kept | null}
   */
  draft() {
    try {
      return unpackWorkshop(localStorage.getItem(draftKey) ?? "");
    } catch {
      return null;
    }
  }

  /** One tab writes the draft; one that comes later says that it does not. */
  #watchTabs() {
    const call = (/** @type {string} */ what) =>
      localStorage.setItem(penKey, what + " " + this.#pen + " " + Math.random());
    window.addEventListener("storage", (event) => {
      if (event.key !== penKey || !event.newValue) return;
      const [what, who] = event.newValue.split(" ");
      if (who === this.#pen) return;
      if (what === "asks" && this.#hasPen) call("holds");
      if ((what === "holds" || what === "takes") && this.#hasPen) {
        this.#hasPen = false;
        this.notice(
          words.otherTab,
          button(words.takePen, () => {
            this.#hasPen = true;
            call("takes");
            fill(byId("notices"));
            this.show(this.bench);
          }),
        );
      }
    });
    try {
      call("asks");
    } catch {
      this.#storeFull = true;
    }
  }

  /**
   * The files as they are written, one of them open at a line.
   * @param {string} path
   * @param {number} line
   */
  showFile(path, line) {
    const { files } = this.bench;
    const names = Object.keys(files).sort();
    const text = el("textarea", { "aria-label": words.files, spellcheck: "false", rows: 18 });
    const choice = el(
      "select",
      { "aria-label": words.files, onchange: () => (text.value = files[choice.value]) },
      ...names.map((name) => el("option", { value: name }, name)),
    );
    choice.value = path;
    text.value = files[path] ?? "";
    const use = button(
      words.useText,
      () => {
        close();
        this.bench.replace({ [choice.value]: text.value });
      },
      { class: "main" },
    );
    const close = dialog(
      words.files,
      el("p", {}, words.filesLead),
      choice,
      text,
      el(
        "p",
        { class: "dialog-buttons" },
        use,
        button(words.close, () => close()),
      ),
    );
    if (line > 0) {
      const before =
        text.value
          .split("\n")
          .slice(0, line - 1)
          .join("\n").length + (line > 1 ? 1 : 0);
      text.focus();
      text.setSelectionRange(before, before + text.value.split("\n")[line - 1].length);
    }
  }
}
