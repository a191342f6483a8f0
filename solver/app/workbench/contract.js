// What the engine says, as types only: nothing in this file runs.

/**
 * @typedef {Record<string, string>} Files  every file of the workshop, its text by its path
 * @typedef {{file: string, path: string, value: string | null}} Edit  null takes the line out
 * @typedef {{low: number | null, high: number | null, low_proved: boolean, high_proved: boolean}} Reach
 *
 * @typedef {object} Measured  one property, or the cost, against the bar in the hand
 * @property {string} unit
 * @property {number} step            the least difference that is noticed
 * @property {number} [today]         of the bar in the hand
 * @property {number} [value]
 * @property {number} [difference]
 * @property {number} [difference_low]
 * @property {number} [difference_high]
 * @property {boolean} [sure]
 * @property {string} [words]
 * @property {Reach} [reach]          as differences from the bar in the hand
 * @property {string} [leans_on]
 * @property {string} [currency]
 * @property {number} [per_kg]
 * @property {number} [per_bar]
 * @property {number} [per_batch]
 *
 * @typedef {object} Wish
 * @property {string} wish            as it is written, its key before it
 * @property {string} [path]          where it stands in its file, such as want.hardness
 * @property {string} file
 * @property {number} line
 * @property {string | null} [property]  a property's name, or 'cost'
 * @property {boolean} compared
 * @property {number | null} [low]
 * @property {number | null} [high]
 * @property {string} unit
 * @property {number} [value]
 * @property {boolean} [tie]
 *
 * @typedef {{severity: string, say: string}} Caution
 * @typedef {{say: string, edits: Edit[]}} Change
 * @typedef {{file: string, line: number, column: number, path: string, message: string,
 *            remedy?: string, suggestions: string[]}} Fault
 * @typedef {{name: string, rule: string, state: string, dropped: boolean, reason?: string,
 *            price: {change: number, unit: string, proved: boolean} | null}} Manner
 * @typedef {{oil: string, least: number | null, most: number | null, file: string, path: string}} OilRule
 * @typedef {{name: string, unit: string, value: number, tie_breaker: boolean}} Aim
 *
 * @typedef {object} Recipe
 * @property {{oil: string, grams: number, percent: number}[]} oils
 * @property {{name: string, grams: number, how: string}[]} lye_pot_order
 * @property {{alkali: string, grams: number, purity_percent: number}[]} lye
 * @property {number} superfat_percent
 * @property {number} superfat_low_percent
 * @property {number} superfat_high_percent
 * @property {number} lye_concentration_percent
 * @property {number} oils_grams
 * @property {number} total_grams
 * @property {{line: string, superfat_percent: number, at_worst_percent: number,
 *             lye_heavy: boolean}[]} if_forgotten
 * @property {{name: string, grams: number}[]} [additives]
 *
 * @typedef {{oil: string, percent: number}[]} Shares
 * @typedef {{total: number, dry_bar: number, lather: number, skin_after: number}} Feel  in steps that are noticed
 * @typedef {{per_bar: number, per_batch: number, currency: string}} Saving
 * @typedef {{new_names: string[], gone_names: string[], new_tags: string[]}} Outside
 * @typedef {{cost_per_kg: number, feel_steps: number, blend: Shares}} CurvePoint
 *
 * @typedef {object} Explored  one bar of those that 'explore' looked at
 * @property {string} for
 * @property {Shares} blend
 * @property {{blend: Shares, share_moved_percent: number, proved: boolean}[]} alternatives
 * @property {{points: CurvePoint[]} | null} [curve]
 *
 * @typedef {object} Plan
 * @property {boolean} found
 * @property {boolean} proved
 * @property {{oil: string, product: string, pack: string, pack_price: number, count: number}[]} buys
 * @property {number} delivery
 * @property {number} cash
 *
 * @typedef {object} Reply
 * @property {string} status
 * @property {string} [brief]
 * @property {string} [brief_hash]    of the brief and all it read
 * @property {{oil: string, percent: number, grams?: number}[]} [blend]
 * @property {string} [compared_with]
 * @property {Record<string, Measured>} [properties]
 * @property {Measured} [cost]
 * @property {Aim[]} [objectives]
 * @property {OilRule[]} [oil_rules]
 * @property {Wish[]} [wishes]
 * @property {Manner[]} [manners]
 * @property {{wishes: Wish[], proved: boolean}} [conflict]
 * @property {Change[]} [ways_out]
 * @property {Change[]} [purchases]
 * @property {Fault[]} [errors]
 * @property {string} [error]
 * @property {Caution[]} [cautions]
 * @property {{aim: number, worst: number, most: number}} [superfat]
 * @property {Recipe} [recipe]
 * @property {{say: string}} [make]
 * @property {string} [reason]
 * @property {{feel: Feel, saving: Saving | null, outside: Outside}} [swap]
 * @property {Explored[]} [bars]
 * @property {Plan} [plan]
 * @property {string} [currency]
 * @property {string[]} [oils]
 * @property {Record<string, string[]>} [synonyms]
 *
 * @typedef {{exit: number, text: string, error: string, json: Reply | null, files: Files}} Ran
 *
 * @typedef {object} Engine
 * @property {boolean} served         over a folder, by 'barwright serve'
 * @property {(args: string[], files: Files, signal?: AbortSignal) => Promise<Ran>} run
 * @property {() => Promise<Files>} open   what is there at the start; nothing where no folder is served
 * @property {(files: Files) => Promise<string[]>} save  writes the folder; which files changed on disk meanwhile
 */
export {};
