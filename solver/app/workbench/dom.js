// Small helpers over the document. Text from files and from the engine goes in as text, never as markup.

/**
 * An element with its attributes and what is in it.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Record<string, string | boolean | number | ((event: any) => void)>} [attributes] on... names a handler
 * @param {...(Node | string)} inside
 * @returns {HTMLElementTagNameMap[K]}
 */
export function el(tag, attributes = {}, ...inside) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") made.addEventListener(name.slice(2), value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false) made.setAttribute(name, String(value));
  }
  made.append(...inside);
  return made;
}

/**
 * The element of the page's skeleton with this id.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error("the page has no part called " + id);
  return found;
}

/**
 * Puts these into an element in place of what was there.
 * @param {Element} into
 * @param {...(Node | string)} inside
 */
export function fill(into, ...inside) {
  into.replaceChildren(...inside);
}

/**
 * Sets a text only where it differs, so that nothing is read aloud twice.
 * @param {Element} at
 * @param {string} text
 */
export function put(at, text) {
  if (at.textContent !== text) at.textContent = text;
}

/**
 * A button that says what it does.
 * @param {string} says
 * @param {() => void} does
 * @param {Record<string, string | boolean>} [more]
 */
export function button(says, does, more = {}) {
  return el("button", { type: "button", ...more, onclick: () => does() }, says);
}

/**
 * Told to whoever listens rather than looks; spoken once it has settled.
 * @param {string} sentence
 */
export function speak(sentence) {
  put(byId("spoken"), sentence);
}

/**
 * Opens a dialog and gives the way to shut it.
 * @param {string} title
 * @param {...(Node | string)} inside
 * @returns {() => void}
 */
export function dialog(title, ...inside) {
  const box = el("dialog", { "aria-label": title }, el("h2", {}, title), ...inside);
  document.body.append(box);
  box.addEventListener("close", () => box.remove());
  box.showModal();
  return () => box.close();
}
