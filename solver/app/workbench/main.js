// Puts the page together: engine, bench, rails, loaf, weigh-out and the keeping of files.

import { Bench, isBrief } from "./bench.js";
import { button, byId, dialog, el, fill, put, speak } from "./dom.js";
import { findEngine } from "./engine.js";
import { showFirst } from "./first.js";
import { Keeper } from "./keeping.js";
import { blendInWords, Loaf } from "./loaf.js";
import { showNothing, tie } from "./nothing.js";
import { percent } from "./numbers.js";
import { askRule, ruleInWords } from "./oil_rule.js";
import { Rail } from "./rail.js";
import { Rooms } from "./rooms.js";
import { WeighOut } from "./weigh.js";
import { savePage } from "./workshop_file.js";
import { bandOf, phraseOf, surenessOf } from "./wishes.js";
import { aims, firstRails, railWords, words } from "./words.js";

/**
 * @typedef {import("./bench.js").View} View
 * @typedef {import("./contract.js").Edit} Edit
 * @typedef {import("./contract.js").Engine} Engine
 * @typedef {import("./contract.js").Measured} Measured
 * @typedef {import("./contract.js").Reply} Reply
 * @typedef {import("./wishes.js").Band} Band
 */

class Workbench {
  allRails = false;
  /** @type {Map<string, Rail>} */
  rails = new Map();
  /** The rail that is being pulled, which no reply may move. */
  pulled = "";
  spokenOf = "";
  /** @type {import("./contract.js").Fault[] | null} */
  faultsShown = null;

  /** @param {Engine} engine */
  constructor(engine) {
    this.engine = engine;
    this.bench = new Bench(engine, (view) => this.show(view));
    this.keeper = new Keeper(this.bench, engine);
    this.loaf = new Loaf(byId("loaf"), (...share) => this.rule(...share));
    this.weigh = new WeighOut(
      () => this.openSheet(),
      () => this.benchSheet(),
      (value) => this.bench.change([{ file: this.bench.brief, path: "scale", value }]),
    );
    for (const name of Object.keys(railWords)) {
      const rail = new Rail(
        name,
        (...pull) => this.pull(...pull),
        () => this.letGo(),
      );
      this.rails.set(name, rail);
      byId("rails").append(rail.root);
    }
    byId("more-rails").addEventListener("click", () => {
      this.allRails = !this.allRails;
      this.show(this.bench);
    });
    this.rooms = new Rooms(engine, this.bench, () => this.show(this.bench));
    new ResizeObserver(() => this.tieRails(this.bench)).observe(byId("rails"));
  }

  async start() {
    const files = await this.engine.open();
    byId("app").hidden = false;
    if (Object.keys(files).length > 0) {
      this.keeper.take(files);
      this.bench.lay(files);
    } else {
      await this.first();
    }
  }

  async first() {
    this.bench.phase = "first";
    this.show(this.bench);
    await showFirst(byId("first"), this.engine, this.keeper, (files, brief, unsaved) => {
      this.keeper.take(files, unsaved);
      this.bench.lay(files, brief);
    });
  }

  /**
   * @param {string} name
   * @param {Band} band
   * @param {boolean} held
   */
  pull(name, band, held) {
    const { now, brief } = this.bench;
    const measured = this.measured(now, name);
    if (!measured) return;
    const old = now?.wishes?.find((wish) => wish.property === name);
    // Wishes written as one phrase stand at 'want' itself: the engine then says what to do.
    const path = old?.path?.includes(".") ? old.path : "want." + (name === "cost" ? "oil cost" : name);
    this.pulled = held ? name : "";
    this.bench.change(
      [{ file: brief, path, value: phraseOf(band, measured.unit, surenessOf(old?.wish ?? "")) }],
      held,
    );
  }

  letGo() {
    this.pulled = "";
    this.bench.letGo();
  }

  /**
   * Pins, caps or leaves out one oil of the loaf.
   * @param {string} oil
   * @param {number} share
   */
  rule(oil, share) {
    const rule = this.bench.now?.oil_rules?.find((one) => one.oil === oil);
    const file = rule?.file ?? this.bench.brief;
    askRule(oil, share, rule?.path ?? "limits." + oil, rule !== undefined, (path, value) => {
      this.bench.change([{ file, path, value }]);
    });
  }

  /**
   * @param {Reply | null} reply
   * @param {string} name
   * @returns {Measured | undefined}
   */
  measured(reply, name) {
    return name === "cost" ? reply?.cost : reply?.properties?.[name];
  }

  /** @param {View} view */
  show(view) {
    document.body.dataset.phase = view.phase;
    document.body.dataset.held = String(view.held);
    document.body.dataset.asked = String(view.asked);
    document.body.dataset.answers = String(view.answers);
    const here = this.rooms.show(view) && view.phase !== "first";
    byId("first").hidden = view.phase !== "first";
    byId("bench").hidden = !here;
    byId("foot").hidden = !here;
    this.keeper.show(view);
    if (view.phase === "first") return;
    this.showState(view);
    this.showRails(view);
    this.showBlend(view);
    this.weigh.show(view);
    showNothing(view.phase === "nothing" ? view.now : null, (edits) => this.bench.change(edits));
    this.tieRails(view);
    this.tell(view);
  }

  /** @param {View} view */
  showState(view) {
    const proved = view.now?.status === "optimal";
    const says = {
      first: "",
      looking: view.held ? words.pulling : words.looking,
      rest: proved ? words.proved : words.found,
      nothing: words.nothing,
      trouble: view.refused ? words.refused : words.trouble,
      stopped: view.now?.status === "undecided" ? words.undecided : words.stopped,
    };
    put(byId("state"), view.fault ? words.wishRefused + ": " + view.fault : says[view.phase]);
    byId("bench").setAttribute("aria-busy", String(view.phase === "looking"));
    const buttons = byId("state-buttons");
    if (view.slow && view.phase === "looking") {
      if (buttons.textContent !== words.stop)
        fill(
          buttons,
          button(words.stop, () => this.bench.stop(), { class: "main" }),
        );
    } else if (view.phase === "stopped") {
      if (buttons.textContent !== words.again)
        fill(
          buttons,
          button(words.again, () => this.bench.ask()),
        );
    } else if (view.phase === "nothing") {
      if (buttons.textContent !== words.toWays)
        fill(
          buttons,
          button(words.toWays, () => this.toWays()),
        );
    } else {
      fill(buttons);
    }
    this.showTrouble(view);
  }

  /** @param {View} view */
  showTrouble(view) {
    const at = byId("trouble");
    at.hidden = view.phase !== "trouble";
    for (const id of ["wish", "blend", "weigh"]) byId(id).hidden = view.phase === "trouble" && !view.now;
    const shown = view.phase === "trouble" ? view.faults : null;
    if (shown === this.faultsShown) return;
    this.faultsShown = shown;
    if (shown === null) return fill(at);
    const items = view.faults.map((fault) => {
      const place =
        fault.file && fault.line
          ? el("p", { class: "place" }, words.troubleHere(fault.file, fault.line))
          : "";
      const rest = fault.remedy ? [el("p", {}, fault.remedy)] : [];
      const open =
        view.files[fault.file] === undefined
          ? ""
          : button(words.openFile, () => this.keeper.showFile(fault.file, fault.line));
      return el("div", { class: "fault" }, place, el("pre", {}, fault.message), ...rest, open);
    });
    fill(
      at,
      el("h2", {}, view.refused ? words.refused : words.trouble),
      ...items,
      button(words.again, () => this.bench.ask()),
    );
  }

  /** @param {View} view */
  showRails(view) {
    const { now } = view;
    const wishes = now?.wishes ?? [];
    const collides = new Set(
      view.phase === "nothing" ? (now?.conflict?.wishes ?? []).map((wish) => wish.property) : [],
    );
    let hidden = 0;
    for (const [name, rail] of this.rails) {
      const measured = this.measured(now, name) ?? this.measured(view.before, name);
      const used =
        firstRails.includes(name) || collides.has(name) || wishes.some((wish) => wish.property === name);
      rail.root.hidden = !used && !this.allRails;
      hidden += used ? 0 : 1;
      if (rail.root.hidden || (!now && !view.before)) continue;
      const band = measured && now?.wishes ? bandOf(wishes, name, measured) : rail.band;
      rail.show(
        {
          band,
          measured,
          reach: view.reach[name],
          reachKnown: view.reachKnown,
          settled: view.full !== null,
          collides: collides.has(name),
        },
        this.pulled === name || (view.phase === "looking" && !now?.wishes),
      );
    }
    put(byId("hand-name"), now?.compared_with || view.before?.compared_with || words.plainBar);
    const more = byId("more-rails");
    more.hidden = hidden === 0;
    put(more, this.allRails ? words.fewerRails : words.moreRails);
    more.setAttribute("aria-expanded", String(this.allRails));
    this.showAim(view);
  }

  /** @param {View} view */
  showAim(view) {
    const first = view.now?.objectives?.find((aim) => !aim.tie_breaker);
    const at = byId("aim");
    if (!first) return;
    /** @type {HTMLSelectElement | null} */
    let choice = at.querySelector("select");
    if (!choice) {
      choice = el("select", {
        id: "aim-choice",
        onchange: (event) =>
          this.bench.change([{ file: this.bench.brief, path: "best", value: event.target.value }]),
      });
      fill(at, el("label", { for: "aim-choice" }, words.aim), " ", choice);
    }
    /** @type {Record<string, string>} */
    const all = { ...(first.name in aims ? {} : { [first.name]: first.name }), ...aims };
    const options = Object.keys(all);
    if (choice.options.length !== options.length || choice.options[0].value !== options[0]) {
      fill(choice, ...options.map((value) => el("option", { value }, all[value])));
    }
    if (document.activeElement !== choice || view.phase === "rest") choice.value = first.name;
  }

  /** @param {View} view */
  showBlend(view) {
    const blend = view.phase === "nothing" || !view.now?.blend?.length ? view.before?.blend : view.now.blend;
    const before = view.phase === "nothing" || (!view.now?.blend?.length && view.before !== null);
    this.loaf.show(blend ?? [], before, view.full !== null);
    const rules = view.now?.oil_rules ?? view.before?.oil_rules ?? [];
    byId("oil-rules").hidden = rules.length === 0;
    fill(byId("oil-rules"), words.rulesHead, ...rules.map((rule) => this.ruleTag(rule)));
    put(byId("make"), view.now?.make?.say ?? view.before?.make?.say ?? "");
  }

  /** @param {import("./contract.js").OilRule} rule */
  ruleTag(rule) {
    const share = rule.most ?? rule.least ?? 0;
    return button(ruleInWords(rule), () => this.rule(rule.oil, share), { class: "rule-tag" });
  }

  /** @param {View} view */
  tieRails(view) {
    const tied =
      view.phase === "nothing"
        ? [...this.rails.values()].filter((rail) => rail.root.classList.contains("collides"))
        : [];
    tie(
      byId("rails"),
      tied.map((rail) => rail.root),
    );
  }

  /**
   * Speaks once an answer has settled, and once only.
   * @param {View} view
   */
  tell(view) {
    const of = view.phase + (view.now?.brief_hash ?? "");
    if (of === this.spokenOf || view.phase === "looking") return;
    this.spokenOf = of;
    if (view.phase === "nothing")
      return speak(
        words.spokenNothing((view.now?.conflict?.wishes ?? []).map((wish) => wish.wish).join("; ")),
      );
    if (view.phase !== "rest" || !view.full) return speak(byId("state").textContent ?? "");
    const feel = [...this.rails.values()]
      .filter((rail) => !rail.root.hidden)
      .map((rail) => rail.spoken())
      .join(" ");
    speak(
      words.spokenAnswer(
        blendInWords(view.full.blend ?? []),
        feel,
        view.full.superfat ? percent(view.full.superfat.worst) : "",
      ),
    );
  }

  /** Brings the ways out into view, the first of them ready to be pressed. */
  toWays() {
    const first = byId("nothing").querySelector("button") ?? byId("nothing");
    first.scrollIntoView({ block: "center" });
    first.focus();
  }

  /** The bench sheet of what is weighed out, as a page of its own to print or to tick. */
  async benchSheet() {
    const { files, brief } = this.bench;
    const stem = brief.replace(/\.ya?ml$/, "");
    const recipe = stem + "-as-weighed.yaml";
    const page = stem + "-sheet.html";
    const rest = Object.fromEntries(Object.entries(files).filter(([path]) => path !== recipe && path !== page));
    const saved = await this.engine.run(["blend", brief, "--save", recipe], rest);
    const ran =
      saved.files[recipe] === undefined
        ? saved
        : await this.engine.run(["sheet", recipe, "--page", page], { ...rest, ...saved.files });
    const html = ran.files[page];
    const name = page.split("/").pop() ?? page;
    if (html !== undefined) {
      // The books count the sheet where a shelf keeps them.
      const books = Object.entries(ran.files).filter(([path]) => path.endsWith("-journal.csv"));
      if (books.length > 0 && this.bench.files === files) this.bench.replace(Object.fromEntries(books));
      savePage(name, html);
    }
    const close = dialog(
      words.benchSheet,
      el("p", {}, html === undefined ? ran.error || ran.text : words.benchSheetSaved(name)),
      el(
        "p",
        { class: "dialog-buttons" },
        button(words.close, () => close()),
      ),
    );
  }

  async openSheet() {
    const { files, brief } = this.bench;
    const ran = await this.engine.run(["blend", brief], files);
    const close = dialog(
      words.sheet,
      el("pre", { class: "sheet", tabindex: 0 }, ran.text || ran.error),
      el(
        "p",
        { class: "dialog-buttons" },
        button(words.print, () => window.print()),
        button(words.close, () => close()),
      ),
    );
  }
}

async function begin() {
  put(byId("no-script"), words.starting);
  try {
    const bench = new Workbench(await findEngine());
    await bench.start();
    byId("no-script").hidden = true;
  } catch (fault) {
    put(
      byId("no-script"),
      fault instanceof Error && fault.message === words.serverGone ? fault.message : words.engineMissing,
    );
    console.error(fault);
  }
}

begin();
export { isBrief };
