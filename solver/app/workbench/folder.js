// A folder of the maker's own, where the browser can let a page into one.

/**
 * @typedef {import("./contract.js").Files} Files
 */

const kinds = /\.(yaml|yml|csv|columns)$/;
const deepest = 3;

/** Whether this browser can let a page into a folder. */
export function canPickFolder() {
  return "showDirectoryPicker" in window;
}

/**
 * The folder the maker picked, or null where they thought better of it.
 * @returns {Promise<PickedFolder | null>}
 */
export async function pickFolder() {
  try {
    return new PickedFolder(await /** @type {any} */ (window).showDirectoryPicker({ mode: "readwrite" }));
  } catch (fault) {
    if (/** @type {Error} */ (fault).name === "AbortError") return null;
    throw fault;
  }
}

export class PickedFolder {
  /** What was read, and is taken to stand there still. @type {Files} */
  #read = {};

  /** @param {any} handle  a FileSystemDirectoryHandle */
  constructor(handle) {
    this.handle = handle;
  }

  /**
   * The text files of a workshop in it.
   * @returns {Promise<Files>}
   */
  async open() {
    this.#read = {};
    await this.#collect(this.handle, "", 1);
    return { ...this.#read };
  }

  /**
   * @param {any} folder
   * @param {string} before
   * @param {number} depth
   */
  async #collect(folder, before, depth) {
    for await (const [name, entry] of folder.entries()) {
      if (name.startsWith(".")) continue;
      if (entry.kind === "directory" && depth < deepest)
        await this.#collect(entry, before + name + "/", depth + 1);
      if (entry.kind === "file" && kinds.test(name))
        this.#read[before + name] = await (await entry.getFile()).text();
    }
  }

  /**
   * Writes what changed; the files that changed on disk meanwhile, in which case nothing is written.
   * @param {Files} files
   * @returns {Promise<string[]>}
   */
  async save(files) {
    const changed = Object.entries(files).filter(([path, text]) => this.#read[path] !== text);
    const clash = [];
    for (const [path] of changed) {
      if ((await this.#textOf(path)) !== this.#read[path]) clash.push(path);
    }
    if (clash.length > 0) return clash;
    for (const [path, text] of changed) {
      const file = await this.#file(path, true);
      const out = await file.createWritable();
      await out.write(text);
      await out.close();
      this.#read[path] = text;
    }
    return [];
  }

  /**
   * @param {string} path
   * @param {boolean} create
   */
  async #file(path, create) {
    const folders = path.split("/");
    const name = folders.pop();
    let folder = this.handle;
    for (const one of folders) folder = await folder.getDirectoryHandle(one, { create });
    return folder.getFileHandle(name, { create });
  }

  /** @param {string} path */
  async #textOf(path) {
    try {
      return await (await (await this.#file(path, false)).getFile()).text();
    } catch {
      return undefined;
    }
  }
}
