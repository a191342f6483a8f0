// All words of the page. What the engine says is shown as it says it.

/**
 * What stands at the two ends of a rail, and its name.
 * @type {Record<string, {name: string, less: string, more: string, means: string}>}
 */
export const railWords = {
  hardness: { name: "Hardness", less: "softer", more: "firmer", means: "of the cured bar in the hand" },
  lather: { name: "Lather", less: "less lather", more: "more lather", means: "foam in warm water" },
  conditioning: { name: "Conditioning", less: "drier", more: "kinder", means: "the skin after washing" },
  cost: { name: "Cost", less: "cheaper", more: "dearer", means: "of the oils" },
  "cut-firmness": {
    name: "Firm at the cut",
    less: "softer",
    more: "firmer",
    means: "when it leaves the mould",
  },
  quickness: {
    name: "Quickness",
    less: "slower to foam",
    more: "quicker to foam",
    means: "first foam in cold water",
  },
  staying: { name: "Staying", less: "foam goes sooner", more: "foam stays", means: "how long foam holds" },
  mildness: { name: "Mildness", less: "harsher", more: "milder", means: "how little it irritates" },
  thrift: {
    name: "Thrift",
    less: "wears faster",
    more: "lasts longer",
    means: "how long a bar lasts in use",
  },
  keeping: { name: "Keeping", less: "turns sooner", more: "keeps longer", means: "against turning rancid" },
  "working-time": {
    name: "Working time",
    less: "thickens sooner",
    more: "thickens later",
    means: "until too thick to pour",
  },
};

/** The four rails that always stand there, in this order. */
export const firstRails = ["hardness", "lather", "conditioning", "cost"];

/** What can be best among the bars that keep every wish: as a brief says it, and as the page does. */
export const aims = {
  "nearest in feel": "the nearest in feel to your bar",
  cheapest: "the cheapest",
  "most hardness": "the hardest",
  "most lather": "the one with most lather",
  "most conditioning": "the kindest after washing",
  "most mildness": "the mildest",
  "most thrift": "the longest lasting",
  "most keeping": "the longest keeping",
  "fewest oils": "the one of fewest oils",
};

export const words = {
  // the head
  unsavedSince: (/** @type {string} */ time) => "not saved since " + time,
  asItCame: "as it came",
  savedAt: (/** @type {string} */ time) => "saved " + time,
  brief: "Brief",
  // the wish
  plainBar: "a plain bar",
  noWish: "no wish",
  least: "at least",
  most: "at most",
  stepDown: "a step less",
  stepUp: "a step more",
  endOf: (/** @type {string} */ rail, /** @type {boolean} */ low) =>
    rail + (low ? ", at least" : ", at most"),
  buttonOf: (/** @type {string} */ rail, /** @type {boolean} */ low, /** @type {boolean} */ up) =>
    rail + (low ? ", at least: " : ", at most: ") + (up ? "a step more" : "a step less"),
  figureOf: (/** @type {string} */ rail, /** @type {boolean} */ low, /** @type {string} */ unit) =>
    rail + (low ? ", at least, " : ", at most, ") + unit + " against your bar",
  openLow: "no floor",
  openHigh: "no ceiling",
  notAFigure: (/** @type {boolean} */ comma) =>
    comma
      ? "Not a figure: decimals are written with a comma here."
      : "Not a figure: decimals are written with a point here.",
  otherUnit: "This wish is in a unit of its own and is left as it is written.",
  sure: "sure",
  doubt: (/** @type {string} */ low, /** @type {string} */ high) => low + " to " + high,
  reachOf: (/** @type {string} */ low, /** @type {string} */ high, /** @type {boolean} */ proved) =>
    "reach " + low + " to " + high + (proved ? "" : ", as far as was looked"),
  beyondLeft: "\u25c0",
  beyondRight: "\u25b6",
  moreRails: "More wishes",
  fewerRails: "Fewer wishes",
  aim: "Of all bars that keep this:",
  // the states
  looking: "Looking\u2026",
  pulling: "Looking\u2026 the grams come when you let go.",
  stop: "Stop",
  stopped:
    "Stopped. What stands here is the last blend that was found; no grams until it is weighed out again.",
  undecided:
    "Neither a blend nor a proof that there is none was found in the work allowed. Loosen a wish a little.",
  again: "Look again",
  proved: "Proved: no other blend of the oils that may be used does it better.",
  found: "The best blend found; not proved to be the best there is.",
  nothing: "Nothing fits",
  nothingProved: "Proved, not guessed: no blend keeps all of these at once.",
  nothingSaid: "No blend was found that keeps all of these at once.",
  collide: "collides",
  aloneProved: "Proved, not guessed: this alone cannot be had from these oils by your rules.",
  collideHere: "These collide; leave out one and the rest can be had.",
  toWays: "Show the ways out",
  waysOut: "Any one of these is enough",
  buying: "Or buy",
  noWays: "No single change would open the way. Take a wish off, or allow more oils.",
  before: "before",
  beforeSays: "the last blend that fitted, before this wish",
  refused: "Refused: it would not be safe",
  trouble: "A file cannot be taken as it stands",
  troubleHere: (/** @type {string} */ file, /** @type {number} */ line) => file + ", line " + line,
  openFile: "Open the file at this line",
  wishRefused: "That change was not taken",
  // the loaf
  loaf: "The loaf, cut to its shares",
  ruleSays: (/** @type {string} */ oil) => "Pin, cap or leave out " + oil,
  rulesHead: "Your rules:",
  ruleLead: "Say what share it shall have; the rest of the loaf is found around it.",
  rulePin: "Pin it at this share",
  ruleAtMost: "No more than this",
  ruleAtLeast: "No less than this",
  ruleLeaveOut: "Leave it out",
  ruleOff: "No rule",
  ruleOut: (/** @type {string} */ oil) => oil + " is left out",
  rulePinned: (/** @type {string} */ oil, /** @type {string} */ percent) => oil + " is pinned at " + percent,
  ruleLeast: (/** @type {string} */ percent) => "at least " + percent,
  ruleMost: (/** @type {string} */ percent) => "at most " + percent,
  notAShare: "A share is a figure from 0 to 100.",
  share: (/** @type {string} */ oil, /** @type {string} */ percent) => oil + ", " + percent,
  // the rooms
  benchRoom: "Bench",
  swapRoom: "Swap",
  exploreRoom: "Look around",
  swapHead: "Strike an oil out of a recipe",
  swapLead: "The bar that feels nearest to it without that oil is found, and what is felt and saved is told.",
  swapRecipe: "Recipe",
  swapUsing: "In its place may come",
  swapShelf: "what is on the shelf",
  swapLibrary: "any oil of the library",
  noRecipe: "There is no recipe among these files.",
  strikeOut: (/** @type {string} */ oil) => "Strike out " + oil,
  strikeOne: "Strike out the oil that is too dear, or that has run out.",
  nothingStays: (/** @type {string} */ oil) => "No " + oil + " stays",
  mayStay: (/** @type {string} */ oil, /** @type {string} */ share) =>
    "Of " + oil + " at most " + share + " stays",
  noSwap: "No blend was found that keeps the manners of the house without it.",
  swapProved: "Proved: no other blend of the oils that may be used is nearer in feel.",
  swapFound: "The nearest blend found; not proved to be the nearest there is.",
  felt: "What is felt",
  feltStep: "One step is what a user would just notice.",
  dryBar: "the dry bar in the hand",
  inLather: "the lather",
  skinAfter: "the skin after",
  steps: (/** @type {string} */ steps) => steps + " of a step",
  saves: (/** @type {string} */ bar, /** @type {string} */ batch) =>
    "Saved: " + bar + " a bar, " + batch + " a batch.",
  newNames: (/** @type {string} */ names) => "New on the list of ingredients: " + names + ".",
  goneNames: (/** @type {string} */ names) => "Gone from it: " + names + ".",
  newTags: (/** @type {string} */ tags) =>
    "New in this bar, check your claims and allergy notes: " + tags + ".",
  keepRecipe: "Keep as a recipe of its own",
  keptAs: (/** @type {string} */ file) => "Kept as " + file + ".",
  exploreHead: "Look around before any money is spent",
  exploreLead:
    "What to buy for the whole range, other blends that would do, and what each step of feel costs.",
  noLook: "There is no brief with a sales plan among these files.",
  noLookFound: "Nothing was found that keeps this brief.",
  lookStopped: "Stopped.",
  toBuy: "What to buy",
  buyNothing: "Nothing: the shelf holds enough.",
  buyPacks: "packs",
  buyWhat: "what",
  buyPack: "pack",
  buyPrice: "price of a pack",
  buyCash: (/** @type {string} */ delivery, /** @type {string} */ cash) =>
    "Delivery " + delivery + "; cash out " + cash + ".",
  buyProved: "Proved: no other purchase of these packs costs less and makes the range.",
  different: "Truly different blends",
  apart: (/** @type {string} */ share) => share + " of the oils are others",
  priceOfFeel: "What each step of feel costs",
  curvePoint: (/** @type {string} */ cost, /** @type {string} */ steps) =>
    cost + " per kg of oils, " + steps + " steps from your bar",
  curveUp: (/** @type {string} */ currency) => currency + " per kg, dearer upwards",
  curveAlong: "further from your bar in feel",
  // the weigh-out
  weighOils: "The oils",
  weighOil: "oil",
  weighGrams: "weigh",
  weighShare: "share",
  ifForgotten: (/** @type {string} */ percent) => "forgotten, " + percent + " would be left",
  lyeHeavy: (/** @type {string} */ percent) => "forgotten, " + percent + ": lye left over, do not use",
  oilsTogether: "oils together",
  theLye: "The lye, in this order",
  burns: "Burns skin and eyes: goggles, gloves, sleeves.",
  pureAs: (/** @type {string} */ name, /** @type {string} */ percent) =>
    name + " reckoned as " + percent + " pure",
  lyeOf: (/** @type {string} */ percent) => "Lye of " + percent,
  inThePot: (/** @type {string} */ grams) => "in the pot " + grams,
  superfat: "Superfat",
  atWorst: "at worst",
  atMost: "at most",
  noSuperfat: "none yet",
  noGrams: "Grams stand here only when they were weighed for this very wish.",
  print: "Print",
  sheet: "All in words",
  benchSheet: "Bench sheet",
  /** @param {string} name */
  benchSheetSaved: (name) =>
    "The bench sheet is among your downloads: " +
    name +
    ". Open it to print it, or on a phone or tablet to tick it; what is written on it is saved from there.",
  cautions: "Cautions",
  danger: "Danger",
  warning: "Care",
  note: "Note",
  manners: "Kept unasked",
  mannersPrice: (/** @type {string} */ amount) => "without it " + amount + " more",
  gaveWay: "gave way",
  sheetTest: "Test every batch before it is used or sold; local rules and your supplier's papers come first.",
  costs: (/** @type {string} */ kg, /** @type {string} */ bar, /** @type {string} */ batch) =>
    [bar && bar + " a bar", batch && batch + " a batch", kg && kg + " per kg of oils"]
      .filter(Boolean)
      .join(", "),
  // first
  firstHead: "What shall your next bar be?",
  firstLead:
    "Say what stands on your shelf, what you make now and what the new bar should be. The blend, its lye and every gram are worked out from that, and nothing leaves this machine.",
  playHead: "Look around first",
  playLead:
    "Weighbridge Yard is an invented workshop, all its figures invented. Pull its wishes about and see what happens.",
  play: "Open the invented workshop",
  openSaved: "Open a saved workshop",
  startOwn: "Start with your own bar",
  stepShelf: "Your shelf",
  stepShelfLead:
    "The oils that stand there, and what you paid for a pack as it was bought; cells of a spreadsheet can be pasted. Empty: any oil that is sold everywhere.",
  stepBar: "Your bar",
  stepBarLead: "The bar you make now, in per cent of its oils. Empty: a plain bar, which is spelled out.",
  stepWish: "Your wish",
  stepWishLead: "Against that bar. All of it can be pulled about later.",
  oil: "Oil",
  have: "There is",
  paid: "Paid",
  pack: "for a pack of",
  shareOf: "Share, %",
  addRow: "Add an oil",
  removeRow: (/** @type {string} */ oil) => "Take out " + (oil || "this line"),
  sum: (/** @type {string} */ sum) => "together " + sum,
  currency: "Currency",
  less: "less",
  same: "no less",
  more: "more",
  leave: "does not matter",
  notDearer: "no dearer",
  cheaper: "cheaper",
  bars: "How many bars",
  barWeight: "Weight of a bar, g",
  find: "Find the blend",
  decimals: "Decimals are written",
  point: "1.5 with a point",
  commaMark: "1,5 with a comma",
  myBar: "my next bar",
  needPrices:
    "A wish for the cost needs what you paid: fill it in on your shelf, or say that the cost does not matter.",
  needFigure: (/** @type {string} */ oil) => "A figure is missing or cannot be read beside " + oil + ".",
  // keeping
  save: "Save",
  open: "Open",
  openFolder: "Open a folder",
  emptyFolder: "There is no file of a workshop in that folder.",
  undo: "Undo",
  redo: "Redo",
  files: "Files",
  filesLead: "Every file of the workshop as it is written. What you change here counts at once.",
  useText: "Use this text",
  close: "Close",
  draftKept:
    "A draft of this workshop is kept in this browser until it is saved; other pages opened from this computer's disk may be able to read it.",
  draftForget: "Forget the draft",
  draftOlder: "The draft before that",
  draftOpen: "Carry on with the draft",
  notAWorkshop: "This is not a saved workshop, or it was cut short. Nothing was changed.",
  otherTab: "This workshop is open in another tab, which keeps the draft. This one keeps none.",
  takePen: "Keep it here instead",
  changedOnDisk: (/** @type {string} */ files) =>
    "Changed on disk meanwhile, and left as it is there: " + files + ". Open the page again to read it.",
  storeFull: "This browser would not keep the draft. Save the workshop to a file.",
  noBrief: "There is no brief among these files.",
  // engine
  starting: "Getting the bench ready\u2026",
  engineGone:
    "The reckoning stopped by itself, perhaps for want of memory. It was started afresh; the last wish was not answered.",
  engineMissing:
    "The part of this page that reckons is missing or did not start. Open the file in a recent browser.",
  serverGone: "No answer from barwright on this machine. Is 'barwright serve' still running?",
  spokenAnswer: (/** @type {string} */ blend, /** @type {string} */ feel, /** @type {string} */ worst) =>
    "Found: " + blend + ". " + feel + (worst ? " Superfat at worst " + worst + "." : ""),
  spokenNothing: (/** @type {string} */ wishes) => "Nothing fits. These collide: " + wishes + ".",
};
