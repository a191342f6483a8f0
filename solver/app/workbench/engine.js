// The one way to the engine, with two backs: a worker that holds it, or 'barwright serve'. Both answer the
// same question with the same reply and run one question at a time.

import { words } from "./words.js";

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 * @typedef {import("./contract.js").Ran} Ran
 */

/** Thrown where a search was ended because a newer wish, or the maker, wanted it so. */
export class Ended extends Error {}

/**
 * @param {{exit: number, text: string, error: string, files: Files, removed?: string[]}} reply
 * @param {string[]} args
 * @returns {Ran}
 */
function readReply(reply, args) {
  let json = null;
  if (args.includes("--json")) {
    try {
      json = JSON.parse(reply.text);
    } catch {
      json = null;
    }
  }
  return { exit: reply.exit, text: reply.text, error: reply.error, json, files: reply.files ?? {} };
}

/**
 * Runs things one after the other; one that fails does not hold up the next.
 */
class Turns {
  /** @type {Promise<unknown>} */
  #last = Promise.resolve();

  /**
   * @template T
   * @param {() => Promise<T>} work
   * @returns {Promise<T>}
   */
  take(work) {
    const mine = this.#last.then(work, work);
    this.#last = mine.catch(() => undefined);
    return mine;
  }
}

/** Over the folder that 'barwright serve' was started in. */
class ServedEngine {
  served = true;
  #turns = new Turns();
  /** @type {Files} */
  #disk = {};
  /** @type {Record<string, string>} */
  #hashes = {};

  /** @param {string} token */
  constructor(token) {
    this.token = token;
  }

  /**
   * @param {string} path
   * @param {unknown} [body]
   * @param {AbortSignal} [signal]
   * @returns {Promise<{status: number, json: any}>}
   */
  async #ask(path, body, signal) {
    const init = { headers: { "X-Barwright-Token": this.token, "Content-Type": "application/json" }, signal };
    let answer;
    try {
      answer = await fetch(
        path,
        body === undefined ? init : { ...init, method: "POST", body: JSON.stringify(body) },
      );
      return { status: answer.status, json: await answer.json() };
    } catch (fault) {
      if (signal?.aborted) throw new Ended();
      throw new Error(answer ? words.serverGone + " (" + answer.status + ")" : words.serverGone, {
        cause: fault,
      });
    }
  }

  async open() {
    const { json } = await this.#ask("/files");
    this.#disk = json.files;
    this.#hashes = json.hashes;
    return json.files;
  }

  /**
   * @param {string[]} args
   * @param {Files} files
   * @param {AbortSignal} [signal]
   */
  run(args, files, signal) {
    return this.#turns.take(async () => {
      if (signal?.aborted) throw new Ended();
      const changed = Object.fromEntries(
        Object.entries(files).filter(([path, text]) => this.#disk[path] !== text),
      );
      const { status, json } = await this.#ask("/run", { args, files: changed }, signal).catch((fault) =>
        fault instanceof Ended
          ? this.#ask("/stop", {}).then(() => Promise.reject(fault))
          : Promise.reject(fault),
      );
      if (status === 409) throw new Ended();
      if (status !== 200) throw new Error(json.error);
      return readReply(json, args);
    });
  }

  /** @param {Files} files */
  async save(files) {
    const changed = Object.entries(files).filter(([path, text]) => this.#disk[path] !== text);
    if (changed.length === 0) return [];
    const body = Object.fromEntries(
      changed.map(([path, text]) => [path, { text, was: this.#hashes[path] ?? null }]),
    );
    const { status, json } = await this.#ask("/save", { files: body });
    if (status === 409) return json.changed;
    if (status !== 200) throw new Error(json.error ?? words.serverGone);
    Object.assign(this.#disk, Object.fromEntries(changed));
    Object.assign(this.#hashes, json.hashes);
    return [];
  }
}

/**
 * One worker with the engine in it.
 * @typedef {{worker: Worker, ready: Promise<void>}} Hand
 */

/** The engine inside the page. It is compiled once; a spare stands by for the search that must be ended. */
class WorkerEngine {
  served = false;
  #turns = new Turns();
  #next = 1;
  /** @type {Hand} */
  #hand;
  /** @type {Hand} */
  #spare;

  /**
   * @param {WebAssembly.Module} module
   * @param {string} script
   */
  constructor(module, script) {
    this.module = module;
    this.url = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
    this.#hand = this.#hire();
    this.#spare = this.#hire();
  }

  /** @returns {Hand} */
  #hire() {
    const worker = new Worker(this.url);
    const ready = new Promise((/** @type {(value: void) => void} */ resolve, reject) => {
      worker.onmessage = (event) => (event.data.ready ? resolve() : reject(new Error(words.engineMissing)));
      worker.onerror = () => reject(new Error(words.engineMissing));
    });
    ready.catch(() => undefined);
    worker.postMessage({ module: this.module });
    return { worker, ready };
  }

  #replace() {
    this.#hand.worker.terminate();
    this.#hand = this.#spare;
    this.#spare = this.#hire();
  }

  async open() {
    await this.#hand.ready;
    return {};
  }

  /**
   * @param {string[]} args
   * @param {Files} files
   * @param {AbortSignal} [signal]
   */
  run(args, files, signal) {
    return this.#turns.take(async () => {
      if (signal?.aborted) throw new Ended();
      await this.#hand.ready;
      const { worker } = this.#hand;
      const id = this.#next++;
      try {
        const reply = await new Promise((resolve, reject) => {
          signal?.addEventListener("abort", () => reject(new Ended()), { once: true });
          worker.onmessage = (event) => {
            if (event.data.id !== id) return;
            if (event.data.broken) reject(new Error(words.engineGone));
            else resolve(event.data);
          };
          worker.onerror = () => reject(new Error(words.engineGone));
          worker.postMessage({ id, args, files });
        });
        // A fault of the engine's own, such as too little memory: what it held may be in disorder.
        if (reply.exit === 70) throw new Error(words.engineGone + " " + reply.error);
        return readReply(reply, args);
      } catch (fault) {
        this.#replace();
        throw fault;
      }
    });
  }

  async save() {
    return [];
  }
}

/**
 * The bytes that were packed into the page as base64 of a gzip.
 * @param {string} packed
 */
async function unpacked(packed) {
  const text = atob(packed);
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at++) bytes[at] = text.charCodeAt(at);
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

/**
 * The engine this page came with.
 * @returns {Promise<Engine>}
 */
export async function findEngine() {
  const token = document.querySelector('meta[name="barwright-token"]')?.getAttribute("content") ?? "";
  const packed = document.getElementById("engine-wasm");
  if (!packed) return new ServedEngine(token);
  const module = await WebAssembly.compile(await unpacked((packed.textContent ?? "").trim()));
  packed.remove();
  const script = ["engine-loader", "engine-worker"]
    .map((id) => document.getElementById(id)?.textContent ?? "")
    .join("\n");
  return new WorkerEngine(module, script);
}
