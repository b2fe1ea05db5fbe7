// A new job by a few questions. What isn't known is left out, and the rule for it is said on the job's page.

import { byId, control, element } from "../dom.js";
import { ask, idOf } from "../served/ask.js";
import { say } from "./say.js";

/** @import { Field } from "../types" */

/** @type {[string, string[]][]} */
const GROUPS = [
  ["What is it called?", ["name"]],
  ["The rope", ["rope.diameter", "rope.strands", "rope.weave"]],
  ["The rope's pitch: how far a strand runs for one turn round the rope", ["rope.pitch", "rope.crossings", "rope.over"]],
  ["What sits in the eye", []],
  ["The other end, and how the splice is made", ["line.ends[1].splice", "line.captive_end"]],
  ["What is at hand", ["tools.fids"]],
];
const PITCH = 2;
const EYE = 3;

const WAYS = [
  ["unknown", "Not measured yet: a usual pitch stands in until you count it"],
  ["count", "I have counted crossings along one line on top of the rope"],
  ["known", "I know it"],
];

/** What is measured is asked for, never filled in: an example could be taken for one's own figure. */
const FILLED = ["rope.weave", "terminator.kind", "line.ends[1].splice"];

/** @type {Record<string, string>} */
const HINTS = {
  name: "such as: forestay",
  "rope.strands": "such as 12",
  "line.captive_end": "such as: made off to the masthead fitting",
};

/** @type {{ system: string, fields: Field[], pitch: string }} */
const asked = { system: "mm", fields: [], pitch: "unknown" };

export function makeQuestions() {
  byId("questions").addEventListener("submit", (event) => {
    event.preventDefault();
    make();
  });
}

/** Shows the questions, with what has been answered so far. */
export async function showQuestions() {
  if (asked.fields.length > 0) return;
  await build({});
}

/**
 * Builds the form for the chosen units.
 * @param {Record<string, string>} answers
 */
async function build(answers) {
  const { status, data } = await ask(`questions/${asked.system}`);
  if (status !== 200) {
    say(data.problem, true);
    return;
  }
  asked.fields = data.fields;
  const groups = GROUPS.map(([title, keys], i) => groupOf(title, fieldsOf(keys, i), data.texts, answers, i));
  const button = element("button", { class: "main", text: "Make the job and open it" });
  const wrong = element("p", { id: "new-wrong", class: "error", role: "alert", hidden: true });
  byId("questions").replaceChildren(unitsOf(), ...groups, wrong, element("p", { class: "buttons" }, button));
  byId(idOf("terminator.kind")).addEventListener("change", showForKind);
  showForKind();
  showPitch();
}

/**
 * @param {string[]} keys
 * @param {number} i
 */
const fieldsOf = (keys, i) => asked.fields.filter(({ key }) => (i === EYE ? key.startsWith("terminator.") : keys.includes(key)));

function unitsOf() {
  const ways = [["mm", "Millimetres"], ["in", "Inches, with fractions"]].map(([value, text]) => radio("units", value, text, asked.system === value, () => {
    asked.system = value;
    build(answersOf());
  }));
  return element("fieldset", {}, element("legend", { text: "Units" }), element("div", { class: "ways" }, ...ways));
}

/**
 * @param {string} name
 * @param {string} value
 * @param {string} text
 * @param {boolean} checked
 * @param {() => void} changed
 */
function radio(name, value, text, checked, changed) {
  const input = element("input", { type: "radio", name, value, checked });
  input.addEventListener("change", changed);
  return element("label", {}, input, text);
}

/**
 * @param {string} title
 * @param {Field[]} fields
 * @param {Record<string, string>} texts
 * @param {Record<string, string>} answers
 * @param {number} i
 */
function groupOf(title, fields, texts, answers, i) {
  const ways = WAYS.map(([value, text]) => radio("pitch", value, text, asked.pitch === value, () => {
    asked.pitch = value;
    showPitch();
  }));
  const own = fields.map((field) => fieldOf(field, texts, answers));
  const first = i === PITCH ? [element("div", { class: "ways" }, ...ways)] : [];
  return element("fieldset", {}, element("legend", { text: title }), ...first, ...own);
}

/**
 * @param {Field} field
 * @param {Record<string, string>} texts
 * @param {Record<string, string>} answers
 */
function fieldOf(field, texts, answers) {
  const id = idOf(field.key);
  const own = controlOf(field, id, texts);
  const filled = FILLED.includes(field.key) ? texts[field.key] : "";
  own.value = answers[field.key] || filled || own.value;
  const label = element("label", { for: id, text: field.label }, element("small", { text: field.note || field.units }));
  const error = element("p", { class: "error", id: `${id}-error`, role: "status", hidden: true });
  return element("div", { class: "field", "data-key": field.key }, label, own, error);
}

/**
 * @param {Field} field
 * @param {string} id
 * @param {Record<string, string>} texts
 */
function controlOf(field, id, texts) {
  const attributes = { id, name: field.key, "aria-describedby": `${id}-error` };
  if (field.kind === "choice") {
    return element("select", attributes, ...field.choices.map(([value, text]) => element("option", { value, text })));
  }
  const example = texts[field.key] && texts[field.key] !== "unknown" ? `such as ${texts[field.key]}` : field.default;
  return element("input", { ...attributes, placeholder: HINTS[field.key] || example || field.bounds, maxlength: "200", spellcheck: "false" });
}

/** @param {string} key */
const valueOf = (key) => control(idOf(key)).value;

/** @param {string} key */
const rowAround = (key) => /** @type {HTMLElement} */ (byId(idOf(key)).closest(".field"));

function showForKind() {
  const kind = valueOf("terminator.kind");
  for (const { key, of } of asked.fields) {
    if (key.startsWith("terminator.")) rowAround(key).hidden = of.length > 0 && !of.includes(kind);
  }
}

function showPitch() {
  /** @type {Record<string, string[]>} */
  const ways = { unknown: [], count: ["rope.crossings", "rope.over"], known: ["rope.pitch"] };
  for (const key of ["rope.pitch", "rope.crossings", "rope.over"]) rowAround(key).hidden = !ways[asked.pitch].includes(key);
}

/** The answers of the fields that are shown; a pitch that nobody knows is said to be unknown. */
function answersOf() {
  const rows = asked.fields.map(({ key }) => [key, rowAround(key).hidden ? "" : valueOf(key)]);
  return { ...Object.fromEntries(rows), ...(asked.pitch === "unknown" ? { "rope.pitch": "unknown" } : {}) };
}

async function make() {
  const { status, data } = await ask("new", { system: asked.system, texts: answersOf() });
  if (data.url) {
    asked.fields = [];
    location.assign(data.url);
    return;
  }
  showErrors(data.errors || {}, data.general || (status === 200 ? "" : data.problem));
}

/**
 * @param {Record<string, string>} errors
 * @param {string} general
 */
function showErrors(errors, general) {
  for (const { key } of asked.fields) {
    const place = byId(`${idOf(key)}-error`);
    place.textContent = errors[key] || "";
    place.hidden = !errors[key];
    byId(idOf(key)).setAttribute("aria-invalid", String(Boolean(errors[key])));
  }
  const others = Object.entries(errors).filter(([key]) => !asked.fields.some((field) => field.key === key));
  const marked = Object.keys(errors).length > others.length ? "Please look at the answers marked above." : "";
  const place = byId("new-wrong");
  place.textContent = [general, ...others.map(([, words]) => words), marked].filter(Boolean).join(" ");
  place.hidden = !place.textContent;
  const first = document.querySelector("#questions [aria-invalid='true']");
  if (first instanceof HTMLElement) first.focus();
}
