// A new job by a few questions. What isn't known is left out, and the rule for it is said on the job's page.

import { ask, byId, element, idOf } from "./dom.js";

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

const HINTS = {
  name: "such as: forestay",
  "rope.strands": "count the strands, such as 12",
  "line.captive_end": "such as: made off to the masthead fitting",
  "tools.fids": "diameters, commas between; left empty: the two sizes this rope asks for",
};

const asked = { system: "mm", fields: [], pitch: "unknown" };

/** @type {(words: string, wrong?: boolean) => void} */
let say = () => {};

/** @param {(words: string, wrong?: boolean) => void} tell */
export function makeQuestions(tell) {
  say = tell;
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

/** Builds the form for the chosen units. @param {Record<string, string>} answers */
async function build(answers) {
  const { status, data } = await ask(`questions/${asked.system}`);
  if (status !== 200) {
    say(data.problem, true);
    return;
  }
  asked.fields = data.fields;
  const groups = GROUPS.map(([title, keys], i) => groupOf(title, fieldsOf(keys, i), data.texts, answers, i));
  const button = element("button", { class: "main", text: "Make the job and open it" });
  byId("questions").replaceChildren(unitsOf(), ...groups, element("p", { id: "new-wrong", class: "error", role: "alert", hidden: true }), element("p", { class: "buttons" }, button));
  byId(idOf("terminator.kind")).addEventListener("change", showForKind);
  showForKind();
  showPitch();
}

const fieldsOf = (keys, i) => asked.fields.filter(({ key }) => (i === EYE ? key.startsWith("terminator.") && key !== "terminator.name" : keys.includes(key)));

function unitsOf() {
  const ways = [["mm", "Millimetres"], ["in", "Inches, with fractions"]].map(([value, text]) => radio("units", value, text, asked.system === value, () => {
    asked.system = value;
    build(answersOf());
  }));
  return element("fieldset", {}, element("legend", { text: "Units" }), element("div", { class: "ways" }, ...ways));
}

function radio(name, value, text, checked, changed) {
  const input = element("input", { type: "radio", name, value, checked });
  input.addEventListener("change", changed);
  return element("label", {}, input, text);
}

function groupOf(title, fields, texts, answers, i) {
  const ways = WAYS.map(([value, text]) => radio("pitch", value, text, asked.pitch === value, () => {
    asked.pitch = value;
    showPitch();
  }));
  const own = fields.map((field) => fieldOf(field, texts, answers));
  const first = i === PITCH ? [element("div", { class: "ways" }, ...ways)] : [];
  return element("fieldset", {}, element("legend", { text: title }), ...first, ...own);
}

function fieldOf(field, texts, answers) {
  const id = idOf(field.key);
  const control = controlOf(field, id, texts);
  const filled = FILLED.includes(field.key) ? texts[field.key] : "";
  control.value = answers[field.key] || filled || control.value;
  const label = element("label", { for: id, text: field.label }, element("small", { text: field.units }));
  const error = element("p", { class: "error", id: `${id}-error`, role: "status", hidden: true });
  return element("div", { class: "field", "data-key": field.key }, label, control, error);
}

function controlOf(field, id, texts) {
  const attributes = { id, name: field.key, "aria-describedby": `${id}-error` };
  if (field.kind === "choice") {
    return element("select", attributes, ...field.choices.map(([value, text]) => element("option", { value, text })));
  }
  const example = texts[field.key] && texts[field.key] !== "unknown" ? `such as ${texts[field.key]}` : field.default;
  return element("input", { ...attributes, placeholder: HINTS[field.key] || example || field.bounds, maxlength: "200", spellcheck: "false" });
}

const valueOf = (key) => /** @type {any} */ (byId(idOf(key))).value;

function showForKind() {
  const kind = valueOf("terminator.kind");
  for (const { key, of } of asked.fields) {
    const row = /** @type {HTMLElement} */ (byId(idOf(key)).closest(".field"));
    if (key.startsWith("terminator.")) row.hidden = of.length > 0 && !of.includes(kind);
  }
}

function showPitch() {
  const shown = { unknown: [], count: ["rope.crossings", "rope.over"], known: ["rope.pitch"] }[asked.pitch] || [];
  for (const key of ["rope.pitch", "rope.crossings", "rope.over"]) {
    /** @type {HTMLElement} */ (byId(idOf(key)).closest(".field")).hidden = !shown.includes(key);
  }
}

/** The answers of the fields that are shown; a pitch that nobody knows is said to be unknown. */
function answersOf() {
  const rows = asked.fields.map(({ key }) => {
    const row = /** @type {HTMLElement} */ (byId(idOf(key)).closest(".field"));
    return [key, row.hidden ? "" : valueOf(key)];
  });
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

/** @param {Record<string, string>} errors @param {string} general */
function showErrors(errors, general) {
  for (const { key } of asked.fields) {
    const place = byId(`${idOf(key)}-error`);
    place.textContent = errors[key] || "";
    place.hidden = !errors[key];
    byId(idOf(key)).setAttribute("aria-invalid", String(Boolean(errors[key])));
  }
  const place = byId("new-wrong");
  const count = Object.keys(errors).length;
  const hidden = Object.entries(errors).filter(([key]) => !asked.fields.some((field) => field.key === key));
  place.textContent = [general, ...hidden.map(([, words]) => words), count > 0 ? "Please look at the answers marked above." : ""].filter(Boolean).join(" ");
  place.hidden = !place.textContent;
  const first = document.querySelector("#questions [aria-invalid='true']");
  if (first instanceof HTMLElement) first.focus();
}
