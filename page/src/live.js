// The live page: fields of the job to the server, its plan's numbers and news of the settling back. The splice itself is
// shown by the page that `fidpath build` writes, in a frame, which is handed new data as they settle.

import { byId, control, element, saidBy } from "./dom.js";
import { ASK_NAMES, makeDesk } from "./live/desk.js";
import { makeUnits, putTexts, showFollows, showUnits } from "./live/follow.js";
import { makeResults } from "./live/results.js";
import { answered, ask, idOf, saveAs } from "./served/ask.js";

/** @import { Answer, Field, Figure, Live, News, PlanShown } from "./types" */

const PAUSE = 20; // ms without a key before the fields are sent
const PATIENCE = 450; // ms before a half-typed figure is called wrong

/** @type {Live} */
const live = { fields: [], texts: {}, number: 0, sent: 0, mine: 0, heard: 0, shown: 0, timer: undefined, patience: undefined, frame: null, wrong: false, busy: false, agreed: false };

async function start() {
  const { data } = await ask("state");
  showName(data.name);
  live.texts = data.texts;
  buildForm(data.fields, data.texts);
  showPlan(data.plan);
  showPictures(data.pictures);
  control("save-name").value = data.suggested;
  byId("save-note").textContent = `Goes into ${data.folder}. Comments of the file this job came from stay in it.`;
  listTakeaways();
  makeUnits(fields);
  showUnits(data.texts);
  makeDesk(data, settled);
  makeResults();
  hear(data.news);
  listen();
}

/** @param {string} name */
function showName(name) {
  byId("name").textContent = name;
  document.title = `${name}, live`;
}

/** The fields as their helpers see them. */
const fields = {
  texts: () => fieldTexts(),
  put: (/** @type {Record<string, string>} */ texts, /** @type {boolean} */ agreed) => {
    putTexts(texts);
    live.agreed ||= agreed;
    edited();
  },
};

/** Whether the figures hold, once none of them is on its way any more. */
async function settled() {
  for (let tries = 0; tries < 50 && !live.wrong && live.number !== live.sent; tries++) {
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return !live.wrong && live.number === live.sent;
}

// ---- fields

/**
 * @param {Field[]} all
 * @param {Record<string, string>} texts
 */
function buildForm(all, texts) {
  live.fields = all;
  const form = byId("form");
  for (const group of new Set(all.map((field) => field.group))) {
    const own = all.filter((field) => field.group === group);
    const rows = own.map((field) => fieldOf(field, texts));
    const used = own.some(({ key }) => texts[key]);
    form.append(own[0].more ? folded(group, rows, used) : element("fieldset", {}, element("legend", { text: group }), ...rows));
  }
  form.addEventListener("input", edited);
  form.addEventListener("change", edited);
  form.addEventListener("keydown", nudge);
  form.addEventListener("submit", (event) => event.preventDefault());
  showForKind();
}

/**
 * A group that most jobs leave empty.
 * @param {string} group
 * @param {HTMLElement[]} rows
 * @param {boolean} open
 */
const folded = (group, rows, open) => element("details", { open }, element("summary", { text: group }), ...rows);

/**
 * @param {Field} field
 * @param {Record<string, string>} texts
 */
function fieldOf(field, texts) {
  const id = idOf(field.key);
  const own = controlOf(field, id);
  own.value = texts[field.key] || (field.kind === "switch" ? field.default : "");
  const units = element("small", { text: field.units });
  return element(
    "div",
    { class: "field", "data-key": field.key },
    element("label", { for: id, text: field.label }, units),
    own,
    element("p", { class: "hint", id: `${id}-hint`, text: field.bounds, hidden: !field.bounds }),
    element("p", { class: "error", id: `${id}-error`, role: "status", hidden: true }),
  );
}

/**
 * @param {Field} field
 * @param {string} id
 * @returns {HTMLInputElement | HTMLSelectElement}
 */
function controlOf(field, id) {
  const attributes = { id, name: field.key, "aria-describedby": `${id}-hint ${id}-error` };
  if (field.kind === "choice" || field.kind === "switch") {
    const choices = field.kind === "choice" ? field.choices : [["yes", "yes"], ["no", "no"]];
    return element("select", attributes, ...choices.map(([value, text]) => element("option", { value, text })));
  }
  return element("input", { ...attributes, placeholder: field.default, maxlength: "200", spellcheck: "false" });
}

/** @param {string} key */
const fieldAround = (key) => /** @type {HTMLElement} */ (byId(idOf(key)).closest(".field"));

/** Only fields that this kind of terminator has. */
function showForKind() {
  for (const { key, of, kindKey } of live.fields) {
    fieldAround(key).hidden = of.length > 0 && !of.includes(control(idOf(kindKey)).value);
  }
}

/**
 * Up and down change the first number in a field by one of its last digit.
 * @param {KeyboardEvent} event
 */
function nudge(event) {
  const field = /** @type {HTMLInputElement} */ (event.target);
  const step = { ArrowUp: 1, ArrowDown: -1 }[event.key];
  const found = field.tagName === "INPUT" && /\d+(?:\.(\d+))?(?![\d/])/.exec(field.value);
  if (!step || !found || field.value[found.index - 1] === "/") return;
  event.preventDefault();
  const digits = (found[1] || "").length;
  const next = Math.max(0, Number(found[0]) + step * 10 ** -digits).toFixed(digits);
  field.value = field.value.slice(0, found.index) + next + field.value.slice(found.index + found[0].length);
  edited();
}

function edited() {
  showForKind();
  clearTimeout(live.timer);
  live.number += 1;
  live.timer = setTimeout(send, PAUSE);
}

const fieldTexts = () => Object.fromEntries(live.fields.map(({ key }) => [key, control(idOf(key)).value]));

/** Sends the fields as they stand, one order at a time; an answer that another key has overtaken is not shown. */
async function send() {
  if (live.busy) {
    live.timer = setTimeout(send, PAUSE);
    return;
  }
  const number = live.number;
  live.busy = true;
  const { status, data } = await reached(() => ask("job", { texts: fieldTexts(), agreed: live.agreed }));
  live.busy = false;
  if (number !== live.number || status === 0) return;
  live.sent = number;
  live.agreed = false;
  showFollows(data.follows || [], fields);
  live.wrong = status !== 200 || !data.plan;
  clearTimeout(live.patience);
  if (live.wrong) {
    live.patience = setTimeout(() => showErrors(data.errors || {}, data.general || data.problem || ""), PATIENCE);
    return;
  }
  showErrors({}, "");
  showPlan(data.plan);
  refreshHints(data.fields);
  showName(data.name);
  showUnits(data.texts);
  live.texts = data.texts;
  live.mine = data.change;
}

/**
 * An answer, or status 0 where the server can't be reached, which is said.
 * @param {() => Promise<Answer>} asking
 * @returns {Promise<Answer>}
 */
async function reached(asking) {
  try {
    const answer = await asking();
    if (answer.status === 0) gone();
    return answer;
  } catch {
    gone();
    return { status: 0, data: {} };
  }
}

/**
 * @param {Record<string, string>} errors
 * @param {string} general
 */
function showErrors(errors, general) {
  for (const { key } of live.fields) {
    const [own, place] = [control(idOf(key)), byId(`${idOf(key)}-error`)];
    const said = errors[key] || "";
    own.setAttribute("aria-invalid", said ? "true" : "false");
    if (place.textContent !== said) place.textContent = said;
    place.hidden = !said;
  }
  byId("general").textContent = general;
  byId("general").hidden = !general;
  byId("stale").hidden = Object.keys(errors).length === 0 && !general;
}

/**
 * What holds where a field is left empty, and limits, can change with the job.
 * @param {Field[]} all
 */
function refreshHints(all) {
  for (const field of all) {
    const own = control(idOf(field.key));
    if (own.tagName === "INPUT") own.placeholder = field.default;
    byId(`${idOf(field.key)}-hint`).textContent = field.bounds;
  }
}

/** Another window has changed the job: its figures come here too, but not into a field that is being typed in. */
async function follow() {
  const { status, data } = await reached(() => ask("state"));
  if (status !== 200) return;
  showPictures(data.pictures);
  if (JSON.stringify(data.texts) === JSON.stringify(live.texts) || live.number !== live.sent) return;
  live.texts = data.texts;
  for (const { key, kind, default: usual } of live.fields) {
    const own = control(idOf(key));
    if (own !== document.activeElement) own.value = data.texts[key] || (kind === "switch" ? usual : "");
  }
  showForKind();
  showName(data.name);
  showUnits(data.texts);
  showErrors({}, "");
  showPlan(data.plan);
}

// ---- plan

const FIRST = ["eye_length_to_crown", "eye_slack", "throat_angle", "tail_to_lay_out", "bury_length", "take_up"];
/** @type {["marks" | "lengths" | "figures", string][]} */
const GROUPS = [["marks", "Marks"], ["lengths", "Lengths"], ["figures", "Angles, shares and tensions"]];

/** @param {PlanShown} plan */
function showPlan(plan) {
  const before = new Map([...byId("plan").querySelectorAll("td")].map((cell) => [cell.dataset.name, cell.textContent]));
  const tables = GROUPS.map(([group, title]) => tableOf(title, plan[group], before));
  byId("plan").replaceChildren(...tables);
  const all = GROUPS.flatMap(([group]) => plan[group]);
  const first = FIRST.flatMap((name) => all.filter((figure) => figure.name === name));
  byId("first").replaceChildren(...first.flatMap(({ label, shown }) => [element("dt", { text: label }), element("dd", { text: shown })]));
  byId("warnings").replaceChildren(...plan.warnings.map((text) => element("li", { text })));
  byId("cautions").replaceChildren(...plan.cautions.map((text) => element("li", { text })));
}

/**
 * @param {string} title
 * @param {Figure[]} figures
 * @param {Map<string | undefined, string | null>} before
 */
function tableOf(title, figures, before) {
  const rows = figures.map(({ name, label, shown, measured_from: from }) => {
    const fresh = before.size > 0 && before.get(name) !== shown;
    const cell = element("td", { "data-name": name, text: shown, class: fresh ? "new" : null });
    return element("tr", {}, element("th", { scope: "row", text: label }, element("small", { text: from })), cell);
  });
  return element("table", {}, element("caption", { text: title }), element("tbody", {}, ...rows));
}

// ---- news and the picture

function listen() {
  const source = new EventSource("news");
  source.onmessage = (event) => hear(JSON.parse(event.data));
  source.onerror = () => {
    if (source.readyState === EventSource.CLOSED) tooMany();
    else gone();
  };
}

/**
 * @param {string} words
 * @param {boolean} wrong
 */
function say(words, wrong) {
  const place = byId("words");
  if (place.textContent !== words) place.textContent = words;
  byId("status").classList.toggle("wrong", wrong);
}

function gone() {
  say("fidpath has ended. The picture stays; start it again for the fields to answer.", true);
  byId("progress").hidden = true;
}

function tooMany() {
  say("No more news here: too many windows show this job. Close one and load this page again.", true);
}

/** @param {string} words */
const sentence = (words) => `${words.slice(0, 1).toUpperCase()}${words.slice(1)}.`;

/** @param {News} news */
function hear(news) {
  /** @type {HTMLProgressElement} */ (byId("progress")).value = news.share;
  byId("progress").hidden = news.phase === "done" || news.phase === "refused";
  const old = news.shown > 0 && news.shown_change !== news.change;
  const held = old ? " The picture is still that of the figures before." : "";
  if (old && live.frame) live.frame.then((own) => own.document.body.classList.add("old"));
  const refused = news.phase === "refused";
  say(`${refused ? "This can't be settled: " : ""}${sentence(news.words)}${held}`, refused);
  const fresh = news.shown > live.shown;
  if (fresh) showSplice(news.shown);
  if (fresh || (news.change !== live.heard && news.change !== live.mine)) follow();
  live.heard = news.change;
}

/**
 * Shows the newest data: the splice's own page in a frame at first, new data handed to it after that.
 * @param {number} number
 */
async function showSplice(number) {
  live.shown = number;
  if (!live.frame) {
    live.frame = framed();
    return;
  }
  const own = await live.frame;
  const { status, text } = await reached(async () => {
    const answer = await fetch("data");
    return { status: answer.status, data: {}, text: await answer.text() };
  });
  if (status !== 200) return;
  try {
    own.fidpathLoad(text || "");
  } catch (problem) {
    say(`The new picture can't be shown: ${saidBy(problem)}`, true);
  }
}

/**
 * The window of a frame with the splice's page in it.
 * @returns {Promise<Window>}
 */
function framed() {
  const frame = element("iframe", { src: "splice.html", title: "The splice, step by step" });
  return new Promise((resolve) => {
    frame.addEventListener("load", () => {
      byId("waiting").hidden = true;
      const own = frame.contentWindow;
      if (!own) return;
      own.addEventListener("fidpath-shown", (event) => ask("look", { key: /** @type {CustomEvent} */ (event).detail }));
      resolve(own);
    });
    byId("frames").append(frame);
  });
}

// ---- saving and taking away

/** @param {Event} event */
async function save(event) {
  event.preventDefault();
  const body = { name: control("save-name").value, replace: control("save-replace").checked };
  if (!(await settled())) {
    byId("save-said").textContent = "The figures above don't hold: nothing was saved.";
    return;
  }
  const { data } = await reached(() => ask("save", body));
  byId("save-said").textContent = data.saved ? `Saved as ${data.saved}.` : data.problem || ASK_NAMES;
  byId("save-said").classList.toggle("error", !data.saved);
  if (data.follows) byId("follows").scrollIntoView({ block: "nearest" });
  control("save-replace").checked = false;
}

const FILES = [
  ["splice.html", "the page with its pictures: one file that opens anywhere"],
  ["job.toml", "the job file"],
  ["plan.json", "the plan, for other programs"],
  ["splice.stl", "the finished splice as a solid, STL in millimetres"],
  ["splice.glb", "the finished splice as a solid, GLB in metres"],
];

function listTakeaways() {
  const items = FILES.map(([file, words]) => {
    const button = element("button", { type: "button", text: `Download ${words}` });
    button.addEventListener("click", () => take(file));
    return element("li", {}, button);
  });
  byId("take").append(...items);
  byId("take-button").addEventListener("click", () => take(`${control("take-picture").value}.png`));
  byId("save").addEventListener("submit", save);
}

/** @param {[string, string][]} pictures */
function showPictures(pictures) {
  const place = control("take-picture");
  const chosen = place.value;
  place.replaceChildren(...pictures.map(([value, text]) => element("option", { value, text })));
  if (pictures.some(([value]) => value === chosen)) place.value = chosen;
  control("take-button").disabled = pictures.length === 0;
}

/**
 * Fetches a file that may take seconds to make, and has the browser save it.
 * @param {string} file
 */
async function take(file) {
  const said = byId("take-said");
  said.textContent = file === "splice.html" ? "Its pictures are being drawn: about half a minute." : "It is being made.";
  const { status, data } = await reached(() => taken(file));
  said.textContent = status === 200 ? `${data.name} is there.` : data.problem || "It could not be made.";
  said.classList.toggle("error", status !== 200);
  if (status !== 200) return;
  saveAs(data.name, data.blob);
}

/**
 * @param {string} file
 * @returns {Promise<Answer>}
 */
async function taken(file) {
  const answer = await fetch(`take/${file}`);
  if (answer.status === 200) {
    const name = /filename="([^"]+)"/.exec(answer.headers.get("Content-Disposition") || "");
    return { status: 200, data: { blob: await answer.blob(), name: name ? name[1] : file } };
  }
  return answered(answer);
}

start();
