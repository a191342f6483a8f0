// The window with the files as they are written.

import { button, dialog, el } from "./dom.js";
import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Files} Files
 */

/**
 * Opens it with one file, its line marked where one is named.
 * @param {Files} files
 * @param {string} path
 * @param {number} line  from 1; 0 for none
 * @param {(files: Files) => void} use
 */
export function showFiles(files, path, line, use) {
  const names = Object.keys(files).sort();
  const text = el("textarea", { "aria-label": words.files, spellcheck: "false", rows: 18 });
  const options = names.map((name) => el("option", { value: name }, name));
  const choice = el("select", { "aria-label": words.files }, ...options);
  choice.value = path;
  text.value = files[path] ?? "";
  choice.addEventListener("change", () => (text.value = files[choice.value]));
  const take = () => {
    close();
    use({ [choice.value]: text.value });
  };
  const buttons = [button(words.useText, take, { class: "main" }), button(words.close, () => close())];
  const lead = el("p", {}, words.filesLead);
  const close = dialog(words.files, lead, choice, text, el("p", { class: "dialog-buttons" }, ...buttons));
  if (line > 0) markLine(text, line);
}

/**
 * @param {HTMLTextAreaElement} text
 * @param {number} line
 */
function markLine(text, line) {
  const lines = text.value.split("\n");
  const before = lines.slice(0, line - 1).reduce((length, one) => length + one.length + 1, 0);
  text.focus();
  text.setSelectionRange(before, before + (lines[line - 1] ?? "").length);
}
