// From what was typed on the first page to a workshop's files. Every line of them is written by the engine.

/**
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Files} Files
 *
 * @typedef {object} Told  figures are with a point, as files want them
 * @property {string} name          of the brief
 * @property {string} currency
 * @property {{oil: string, have: string, paid: string, pack: string}[]} shelf  amounts with their units
 * @property {{oil: string, share: string}[]} bar
 * @property {{name: string, phrase: string}[]} wishes  one by property or cost, each once; 'cheapest' for the cost
 * @property {string} bars
 * @property {string} each          weight of a bar in grams
 */

export const shelfFile = "shelf.yaml";
export const briefFile = "my-bar.yaml";

// A shelf with nothing on it; what stands there comes onto it by 'shelf receive'.
const emptyShelf =
  "# What stands on your shelf. 'have' is what is there, 'paid' what a pack cost.\n" +
  "shelf: my shelf\ncurrency: EUR\nstock: []\n";

/** Thrown where the engine refused something; `where` is the part of the form it came from. */
export class NotTaken extends Error {
  /**
   * @param {string} where  currency, shelf, bar or size
   * @param {number} row
   * @param {string} why
   */
  constructor(where, row, why) {
    super(why);
    this.where = where;
    this.row = row;
  }
}

/**
 * The files of a new workshop.
 * @param {Engine} engine
 * @param {Told} told
 * @returns {Promise<Files>}
 */
export async function makeWorkshop(engine, told) {
  /** @type {Files} */
  let files = {};
  const run = async (
    /** @type {string} */ where,
    /** @type {number} */ row,
    /** @type {string[]} */ args,
  ) => {
    const ran = await engine.run(args, files);
    if (ran.exit !== 0 && Object.keys(ran.files).length === 0) {
      // What the command line calls it means nothing on a form.
      throw new NotTaken(where, row, (ran.error || ran.text).replace(/^--[a-z-]+:? /, ""));
    }
    files = { ...files, ...ran.files };
  };
  if (told.shelf.length > 0) {
    files[shelfFile] = emptyShelf;
    await run("currency", 0, ["edit", shelfFile, "currency", told.currency]);
  }
  const today = new Date().toISOString().slice(0, 10);
  for (const [row, { oil, have, paid, pack }] of told.shelf.entries()) {
    const price = paid === "" ? [] : ["--paid", paid + " for " + pack];
    await run("shelf", row, [
      "shelf",
      "receive",
      "--shelf",
      shelfFile,
      "--date",
      today,
      ...price,
      "--",
      oil,
      have,
    ]);
  }
  const from = told.bar.map(({ oil, share }) => oil + ":" + share).join(",") || "olive:100";
  const using = told.shelf.length > 0 ? ["--using", shelfFile] : [];
  // Any wish serves to have the brief written; it gives way to what was chosen.
  await run("bar", 0, [
    "blend",
    "--from=" + from,
    "--want",
    "no softer",
    ...using,
    "--save-brief",
    briefFile,
  ]);
  const edits = [
    ["brief", told.name],
    ["want", wishBlock(told.wishes)],
    ...(told.wishes.some((wish) => wish.phrase === "cheapest") ? [["best", "cheapest"]] : []),
    ...(told.bar.length === 0 ? [["compared-with", "plain bar"]] : []),
    ["make", "{bars: " + told.bars + ", each: " + told.each + " g, weighed: cured}"],
  ];
  for (const [path, value] of edits) await run("size", 0, ["edit", briefFile, path, value]);
  return files;
}

/**
 * What is wished, as the value of 'want'. Something must be: where nothing was chosen, that it is no softer.
 * @param {{name: string, phrase: string}[]} wishes
 */
function wishBlock(wishes) {
  const lines = wishes.map(({ name, phrase }) => {
    return name === "cost" ? "oil cost: no more than now" : name + ": " + phrase;
  });
  return "{" + (lines.join(", ") || "hardness: no less") + "}";
}
