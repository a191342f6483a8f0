// A whole workshop as one file, as it is saved and opened again.

import { el } from "./dom.js";

/**
 * @typedef {import("./contract.js").Files} Files
 * @typedef {{files: Files, brief: string, comma: boolean}} Kept  a workshop, its open brief, how decimals are written
 */

const format = "barwright workshop 1";

/** @param {Kept} kept */
export function packWorkshop(kept) {
  const decimals = kept.comma ? "comma" : "point";
  return JSON.stringify({ format, brief: kept.brief, decimals, files: kept.files }, null, 1) + "\n";
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
    const sound = entries.every(([path, file]) => staysWithin(path) && typeof file === "string");
    if (kept.format !== format || entries.length === 0 || !sound) return null;
    return {
      files: Object.fromEntries(entries),
      brief: String(kept.brief),
      comma: kept.decimals === "comma",
    };
  } catch {
    return null;
  }
}

/** @param {string} path */
function staysWithin(path) {
  return path !== "" && !path.startsWith("/") && !path.includes("\\") && !path.split("/").includes("..");
}

/**
 * Puts one file where the maker says, or into the downloads where the browser does not ask; false where the maker
 * thought better of it.
 * @param {string} text
 */
export async function saveFile(text) {
  const blob = new Blob([text], { type: "application/json" });
  const name = "workshop.barwright";
  const pick = /** @type {any} */ (window).showSaveFilePicker;
  if (pick) {
    try {
      const kinds = [{ description: "barwright workshop", accept: { "application/json": [".barwright"] } }];
      const handle = await pick({ suggestedName: name, types: kinds });
      const out = await handle.createWritable();
      await out.write(blob);
      await out.close();
      return true;
    } catch (fault) {
      if (/** @type {Error} */ (fault).name === "AbortError") return false;
    }
  }
  download(name, blob);
  return true;
}

/**
 * @param {string} name
 * @param {Blob} blob
 */
function download(name, blob) {
  const link = el("a", { href: URL.createObjectURL(blob), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/**
 * Puts a page of its own into the downloads: opened from there it is bound by no policy of this one.
 * @param {string} name
 * @param {string} html
 */
export function savePage(name, html) {
  download(name, new Blob([html], { type: "text/html" }));
}
