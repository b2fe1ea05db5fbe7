// Sheets of whole lines, sets, calibration and comparison, made of files in the folder.

import { byId, control, element } from "../dom.js";
import { ask, saveAs } from "../served/ask.js";

/** @import { Home, WorkFile } from "../types" */

/** @typedef {[string, string, WorkFile["kind"][], boolean]} Part a file's part in a sheet, its label, kinds, whether it is needed */
/** @typedef {{ kind: string, title: string, words: string, files: Part[], example: string }} Sheet */

/** @type {Sheet[]} */
const SHEETS = [
  {
    kind: "line",
    title: "A whole line",
    words: "From two pins to the rope to cut, every mark, and how sure the length is.",
    files: [["job", "The line's job", ["job"], true], ["loft", "Your practice file", ["loft"], false]],
    example: "line",
  },
  {
    kind: "set",
    title: "A set of lines",
    words: "One cut list, the marks of each line, and what to cut from which spool.",
    files: [
      ["set", "The set", ["set", "table"], true],
      ["job", "Job for lines that name none", ["job"], false],
      ["spools", "Spools in stock", ["table"], false],
      ["loft", "Your practice file", ["loft"], false],
    ],
    example: "set",
  },
  {
    kind: "calibration",
    title: "Calibration",
    words: "What your own test splices say of how much a bury shortens the rope.",
    files: [["loft", "Your practice file", ["loft"], true], ["job", "What to expect of this job", ["job"], false]],
    example: "loft",
  },
  {
    kind: "comparison",
    title: "Planned and measured",
    words: "What a finished splice measures beside its plan, and what a difference means.",
    files: [
      ["job", "The job", ["job"], true],
      ["measured", "What was measured", ["measured"], true],
      ["loft", "Your practice file", ["loft"], false],
    ],
    example: "measured",
  },
];

/** Shows the sheets that can be made, with the files there are. */
export async function showSheets() {
  const { status, data } = await ask("home");
  if (status !== 200) return;
  const chosen = chosenNow();
  byId("sheets").replaceChildren(...SHEETS.map((sheet) => cardOf(sheet, data, chosen)));
}

/** What stands in the lists, so that it stays when they are made anew. */
function chosenNow() {
  const lists = /** @type {NodeListOf<HTMLSelectElement>} */ (document.querySelectorAll("#sheets select"));
  return Object.fromEntries([...lists].map((list) => [list.id, list.value]));
}

/**
 * @param {Sheet} sheet
 * @param {Home} home
 * @param {Record<string, string>} chosen
 */
function cardOf(sheet, home, chosen) {
  const lists = sheet.files.map((part) => listOf(sheet.kind, part, home.files, chosen));
  const said = element("p", { class: "error", role: "alert", hidden: true });
  const show = element("button", { type: "button", class: "main", text: "Show the sheet" });
  show.addEventListener("click", () => makeSheet(sheet, said, show));
  const example = home.examples.find(({ key }) => key === sheet.example);
  const begin = element("button", { type: "button", text: `Begin ${example ? example.words : "one"}` });
  begin.addEventListener("click", () => beginWith(sheet.example, said));
  const heading = element("h3", { text: sheet.title });
  const words = element("p", { text: sheet.words });
  return element("div", { class: "card" }, heading, words, ...lists, said, element("p", { class: "buttons" }, show, begin));
}

/**
 * @param {string} kind
 * @param {Part} part
 * @param {WorkFile[]} files
 * @param {Record<string, string>} chosen
 */
function listOf(kind, [part, label, kinds, needed], files, chosen) {
  const id = `${kind}-${part}`;
  const fitting = files.filter((file) => kinds.includes(file.kind));
  const options = fitting.map(({ file, title }) => element("option", { value: file, text: title === file ? file : `${title} (${file})` }));
  const choose = fitting.length === 0 ? "there is none yet" : "choose one";
  const none = element("option", { value: "", text: needed ? choose : "none" });
  const list = element("select", { id }, none, ...options);
  list.value = chosen[id] || (needed && fitting.length === 1 ? fitting[0].file : "");
  return element("div", { class: "field" }, element("label", { for: id, text: label }), list);
}

/**
 * Makes a sheet and shows it, or says why it can't be.
 * @param {Sheet} sheet
 * @param {HTMLElement} said
 * @param {HTMLButtonElement} button
 */
async function makeSheet(sheet, said, button) {
  const files = Object.fromEntries(sheet.files.map(([part]) => [part, control(`${sheet.kind}-${part}`).value]));
  button.disabled = true;
  const { status, data } = await ask("report", { kind: sheet.kind, files });
  button.disabled = false;
  const problem = status === 200 ? data.problem : data.problem || "It could not be made.";
  said.textContent = problem || "";
  said.hidden = !problem;
  if (problem) return;
  byId("sheet").hidden = false;
  byId("sheet-head").textContent = sheet.title;
  byId("sheet-text").textContent = data.text;
  byId("sheet-takes").replaceChildren(...takesOf(data));
  byId("sheet-head").focus();
  byId("sheet").scrollIntoView();
}

/** @param {{ name: string, text: string, files: Record<string, string> }} report */
function takesOf({ name, text, files }) {
  const rows = [["txt", text], ...Object.entries(files)];
  const takes = rows.map(([suffix, content]) => {
    const take = element("button", { type: "button", text: `Save as ${suffix.toUpperCase()}` });
    take.addEventListener("click", () => saveAs(`${name}.${suffix}`, new Blob([content], { type: "text/plain" })));
    return take;
  });
  const print = element("button", { type: "button", text: "Print" });
  print.addEventListener("click", () => window.print());
  return [print, ...takes];
}

/**
 * Puts an example into the folder and opens it as text.
 * @param {string} key
 * @param {HTMLElement} said
 */
async function beginWith(key, said) {
  const { status, data } = await ask("example", { key });
  if (status === 200) location.hash = `#edit=${encodeURIComponent(data.file)}`;
  else {
    said.textContent = data.problem;
    said.hidden = false;
  }
}
