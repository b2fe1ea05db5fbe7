// The plan's figures: the marks as a card first, all else folded; a step's own marks; cautions; the list of mistakes.

import { byId, element, listOf } from "../dom.js";
import { printButtons } from "./printing.js";
import { showWrong } from "./wordview.js";

/** @import { App, Figure, Picture, WrongEntry } from "../types" */

/**
 * A table of figures for reading, without their formulas.
 * @param {string} caption
 * @param {Figure[]} rows
 */
function figureTable(caption, rows) {
  const heads = ["what", "how much", "measured from"].map((text) => element("th", { scope: "col", text }));
  const line = (/** @type {Figure} */ { label, shown, measured_from: from, note }) =>
    element(
      "tr",
      {},
      element("th", { scope: "row", text: label }),
      element("td", { text: shown }),
      element("td", {}, from, note ? element("small", { text: note }) : null),
    );
  const head = element("thead", {}, element("tr", {}, ...heads));
  return element("table", {}, element("caption", { text: caption }), head, element("tbody", {}, ...rows.map(line)));
}

/**
 * @param {string} title
 * @param {...Node} inside
 */
const folded = (title, ...inside) => element("details", {}, element("summary", { text: title }), ...inside);

/**
 * How every figure is found, and where that is from.
 * @param {Figure[]} rows
 */
function formulaList(rows) {
  const line = (/** @type {Figure} */ { label, formula, source }) => [
    element("dt", { text: label }),
    element("dd", { text: `${formula} [${source}]` }),
  ];
  return element("dl", {}, ...rows.flatMap(line));
}

/**
 * The marks of a step's picture, with how far each lies from what; nothing where it has none.
 * @param {App} app
 * @param {Picture} picture
 */
export function stepMarks(app, { marks }) {
  const rows = app.data.tables.marks.filter(({ label }) =>
    (marks || []).some(({ letter }) => label === letter || label.startsWith(`${letter},`)),
  );
  if (rows.length === 0) return null;
  return element("div", { class: "own-marks" }, figureTable("Marks of this step", rows));
}

/**
 * Tables, cautions and the list of mistakes: the same for every step.
 * @param {App} app
 */
export function showTables(app) {
  const { tables } = app.data;
  byId("marks").replaceChildren(
    figureTable("Marks, in the order in which they are made", tables.marks),
    printButtons(),
    folded("Lengths", figureTable("Lengths", tables.lengths)),
    folded("Angles, counts and tensions", figureTable("Angles, counts and tensions", tables.figures)),
    folded("Formulas and sources", formulaList([...tables.marks, ...tables.lengths, ...tables.figures])),
    ...(tables.words.length > 0 ? [folded("Words", listOf("ul", tables.words))] : []),
  );
  const warnings = [element("h3", { text: "Warnings of this plan" }), listOf("ul", tables.warnings)];
  const cautions = [element("h2", { text: "Cautions" }), listOf("ul", tables.cautions)];
  byId("care").replaceChildren(...cautions, ...(tables.warnings.length > 0 ? warnings : []));
  byId("wrongs").replaceChildren(
    element("h2", { text: "Usual mistakes" }),
    element("p", { text: "Tap the picture that looks like your rope. Each shows the mistake beside the right way." }),
    element("ol", { class: "mistake-grid" }, ...app.all.wrong.map((entry, at) => mistakeTile(app, entry, at + 1))),
  );
}

/**
 * A mistake to tap: its number, its picture where the page holds one, its title and the step it is made at.
 * @param {App} app
 * @param {WrongEntry} entry
 * @param {number} number
 */
function mistakeTile(app, entry, number) {
  const { state, step, title } = entry.way;
  const drawn = document.querySelector(`#plain img[data-state="${CSS.escape(state)}"]`);
  const picture = drawn instanceof HTMLImageElement ? element("img", { src: drawn.src, alt: "" }) : null;
  const words = element("span", { text: `${number}. ${title} (step ${step})` });
  return element("li", {}, element("button", { type: "button", onclick: () => showWrong(app, entry) }, picture, words));
}
