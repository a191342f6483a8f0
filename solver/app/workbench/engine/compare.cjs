// Runs the same command lines by the program and by its WebAssembly, each over the same files, and compares every
// byte: exit code, text, errors, files written. Use: node compare.cjs PROGRAM ENGINE_FOLDER [COUNT_OF_ROUNDS]
"use strict";
const { spawnSync } = require("node:child_process");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");

const root = path.resolve(__dirname, "../../../..");
const [program, engineFolder, rounds = "1"] = process.argv.slice(2);

/** Text files below a folder of the tree, by their path from its root. */
function filesBelow(folder, into) {
  for (const entry of fs.readdirSync(path.join(root, folder), { withFileTypes: true })) {
    const name = `${folder}/${entry.name}`;
    if (entry.isFile() && /\.(yaml|csv|columns)$/.test(name)) into[name] = fs.readFileSync(path.join(root, name), "utf8");
  }
}

/** The words of a shell line that quotes at most. */
function words(line) {
  return [...line.matchAll(/'([^']*)'|"([^"]*)"|(\S+)/g)].map((m) => m[1] ?? m[2] ?? m[3]);
}

const date = ["--date", "2027-02-13"];
function commandLines() {
  const lines = [];
  const golden = path.join(root, "tests/app/golden");
  for (const file of fs.readdirSync(golden).sort()) {
    const line = fs.readFileSync(path.join(golden, file), "utf8").split("\n")[0].slice(2);
    if (line.startsWith("barwright ") && !/[|&;$<>]/.test(line)) lines.push(words(line).slice(1));
  }
  for (const line of [...lines])
    if (!line.includes("--json") && !line.includes("--csv") && line[0] !== "--version" && !line.includes("--help"))
      lines.push([...line, "--json"]);
  const recipes = ["yard-bar", "fireside-bar"].map((name) => `examples/${name}.yaml`);
  const briefs = ["firmer-bar", "too-hard", "sure-bar"].map((name) => `examples/${name}.yaml`);
  const fixtures = fs.readdirSync(path.join(root, "tests/app/fixtures")).map((name) => `tests/app/fixtures/${name}`);
  for (const recipe of recipes) {
    for (const size of ["oils: 800 g", "bars: 24, each: 90 g", "bars: 7, each: 120 g, weighed: cured", "oils: 1 lb"])
      lines.push(["weigh", recipe, "--to", size], ["weigh", recipe, "--to", size, "--json"]);
    for (const command of ["label", "price", "sheet"]) lines.push([command, recipe], [command, recipe, "--json"]);
    lines.push(["make", recipe, "--bars", "20", ...date], ["make", recipe, "--bars", "20", "--json", ...date]);
    for (const beside of ["all-olive", "plain bar"]) lines.push(["weigh", recipe, "--beside", beside, "--json"]);
  }
  for (const brief of [...briefs, ...fixtures.filter((name) => name.endsWith(".yaml"))]) {
    lines.push(["blend", brief, "--json"], ["blend", brief, "--draft", "--json"], ["blend", brief, "--reach", "--json"]);
    lines.push(["weigh", brief, "--json"]);
  }
  for (const seed of ["3", "4"]) lines.push(["blend", briefs[2], "--try-lots", "500", "--seed", seed, "--json"]);
  for (const want of ["harder", "more lather", "kinder", "cheaper", "harder, lather no less"])
    lines.push(["blend", "--from", "olive:40,coconut:30,palm:25,castor:5", "--want", want, "--json"]);
  for (const oil of ["olive", "coconut", "castor", "lard", "shea butter", "jojoba", "neem", "stearic acid", "oliv"])
    lines.push(["oils", oil], ["oils", oil, "--json"]);
  for (const more of ["hardness", "lather", "keeping", "mildness"]) lines.push(["oils", "--more", more, "--than", "olive"]);
  const shelf = ["--shelf", "examples/weighbridge-shelf.yaml"];
  lines.push(["oils"], ["oils", "--json"], ["shelf", ...shelf, ...date], ["shelf", ...shelf, "--json", ...date]);
  lines.push(["shelf", "receive", "castor", "1 kg", "--paid", "9.50 for 1 kg", "--lot", "C-9", ...shelf, ...date]);
  lines.push(["edit", briefs[0], "want.hardness", "at least 7 above"], ["edit", briefs[0], "wnat.hardness", "x", "--json"]);
  lines.push(["edit", briefs[0], "limits.coconut", "--remove", "--json"], ["new", "mine"], ["new", "."], ["nothing"], []);
  for (const butter of ["coconut", "shea butter", "olive"])
    lines.push(["swap", recipes[0], "--out", butter, "--using", "shelf", "--json"]);
  return lines;
}

function native(args, files) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "barwright-compare-"));
  for (const [name, text] of Object.entries(files)) {
    fs.mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    fs.writeFileSync(path.join(folder, name), text);
  }
  const start = process.hrtime.bigint();
  const ran = spawnSync(program, args, { cwd: folder, encoding: "utf8", env: { NO_COLOR: "1", TZ: "UTC" }, maxBuffer: 1 << 28 });
  const ms = Number(process.hrtime.bigint() - start) / 1e6;
  const written = {};
  for (const name of fs.readdirSync(folder, { recursive: true }).map(String)) {
    if (!fs.statSync(path.join(folder, name)).isFile() || /-lock$/.test(name)) continue;
    const text = fs.readFileSync(path.join(folder, name), "utf8");
    if (files[name] !== text) written[name] = text;
  }
  fs.rmSync(folder, { recursive: true });
  return { exit: ran.status, text: ran.stdout, error: ran.stderr, files: written, ms };
}

function sorted(files) {
  return JSON.stringify(Object.fromEntries(Object.entries(files).sort(([a], [b]) => (a < b ? -1 : 1))));
}

/** Where two texts part, with what stands around it. */
function parting(one, other) {
  let at = 0;
  while (at < one.length && one[at] === other[at]) ++at;
  return `${JSON.stringify(one.slice(Math.max(0, at - 60), at + 40))}\n    ${JSON.stringify(other.slice(Math.max(0, at - 60), at + 40))}`;
}

async function main() {
  process.env.TZ = "UTC";
  const create = require(path.resolve(engineFolder, "barwright.js"));
  const module = new WebAssembly.Module(fs.readFileSync(path.join(engineFolder, "barwright.wasm")));
  const engine = await create({
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(module, imports).then((instance) => done(instance, module));
      return {};
    },
  });
  const run = (args, files) => {
    const text = JSON.stringify({ args, files });
    const size = engine.lengthBytesUTF8(text) + 1;
    const at = engine._malloc(size);
    engine.stringToUTF8(text, at, size);
    const reply = JSON.parse(engine.UTF8ToString(engine._barwright_run(at)));
    engine._free(at);
    return reply;
  };
  const files = {};
  for (const folder of ["examples", "tests/app/fixtures", "tests/oils"]) filesBelow(folder, files);
  const lines = commandLines();
  let apart = 0;
  const sizes = [];
  const spent = { native: 0, engine: 0 };
  for (let round = 0; round < Number(rounds); ++round) {
    for (const args of lines) {
      const one = native(args, files);
      const start = process.hrtime.bigint();
      const other = run(args, files);
      spent.engine += Number(process.hrtime.bigint() - start) / 1e6;
      spent.native += one.ms;
      const same = ["exit", "text", "error"].every((key) => one[key] === other[key]) && sorted(one.files) === sorted(other.files);
      if (same) continue;
      ++apart;
      console.log(`apart: ${args.join(" ")}  exit ${one.exit} ${other.exit}`);
      for (const key of ["text", "error"]) if (one[key] !== other[key]) console.log(`  ${key}\n    ${parting(one[key], other[key])}`);
      if (sorted(one.files) !== sorted(other.files)) console.log(`  files\n    ${parting(sorted(one.files), sorted(other.files))}`);
    }
    sizes.push(engine.HEAPU8 ? engine.HEAPU8.length >> 20 : 0);
  }
  console.log(`${lines.length} command lines, ${apart} apart; ${Math.round(spent.native)} ms by processes, ${Math.round(spent.engine)} ms in one engine; memory after each round, MB: ${sizes}`);
  process.exit(apart === 0 ? 0 : 1);
}

main();
