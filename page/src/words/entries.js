// What can be shown, in order: the aim, the steps, the mistakes; and going from one to another.

import { byId, focused } from "../dom.js";
import { clamp } from "../geometry/vectors.js";
import { fitCanvas } from "../picture/boxes.js";
import { redraw } from "../picture/draw.js";
import { showLook, showMeasurePanel } from "../picture/look.js";
import { showMotion } from "../picture/motion.js";
import { want } from "../store.js";
import { keepPlace } from "./place.js";
import { showWords } from "./wordview.js";

/** @import { App, Entry, PageData, Picture, StepEntry, StepRecord, WrongEntry } from "../types" */

/**
 * All entries of a page's data. An entry has one picture, or two beside one another.
 * @param {PageData} data
 * @returns {App["all"]}
 */
export function entriesOf(data) {
  const last = data.steps[data.steps.length - 1];
  const states = Object.keys(data.states);
  const aimed = data.steps.find(({ state }) => state === data.aim) || last;
  /** @type {StepEntry[]} */
  const steps = data.steps.map((step, i) => {
    const ghost = ghostOf(data.steps[i - 1], step);
    return { kind: "step", key: `step-${step.name}`, step, pictures: [pictureOf(step, ghost)] };
  });
  const bare = { ...aimed, bodies: null, labels: [], ...data.home };
  /** @type {StepEntry} */
  const aim = { kind: "aim", key: "aim", step: aimed, pictures: [pictureOf(bare, null)] };
  /** @type {WrongEntry[]} */
  const wrong = data.wrong.map((way) => ({
    kind: "wrong",
    key: `wrong-${way.state}`,
    way,
    pictures: [pictureOf({ ...way.right, missing: way.beside }, null), pictureOf({ ...way, missing: way.state }, null)],
  }));
  return { aim, steps: [aim, ...steps], wrong, any: states.length > 0 };
}

/**
 * The state before a step, and by how much its table is turned to lie as this one's does; null where there is none.
 * @param {StepRecord | undefined} before
 * @param {StepRecord} step
 */
function ghostOf(before, step) {
  if (!before || !before.views || !step.views || before.state === step.state) return null;
  const between = step.between.map(({ state, heading }) => ({ state, turn: step.heading - heading }));
  return { state: before.state, turn: step.heading - before.heading, between };
}

/**
 * What is needed to draw a picture; without `views` there is nothing to draw yet.
 * @param {any} record
 * @param {Picture["ghost"]} ghost
 * @returns {Picture}
 */
export function pictureOf({ state, missing, heading, views, marks, paint, labels, chips, holes, bodies }, ghost) {
  return { state: state || missing, heading, views, marks, paint, labels, chips, holes, bodies, ghost };
}

/**
 * Shows an entry by its place in the list that is gone through.
 * @param {App} app
 * @param {number} at
 */
export function goTo(app, at) {
  const place = clamp(at, 0, app.entries.length - 1);
  const other = place !== app.at || app.entry !== app.entries[place];
  app.at = place;
  app.entry = app.entries[place];
  app.view = 0;
  app.into = null;
  if (other) app.measured.points = [];
  showEntry(app);
  keepPlace(app);
  if (other) window.dispatchEvent(new CustomEvent("fidpath-shown", { detail: app.entry.key }));
}

/**
 * Brings picture, words and controls in line with the entry shown.
 * @param {App} app
 */
export function showEntry(app) {
  app.pictures = app.entry.pictures;
  app.cameras.length = app.pictures.length;
  document.body.classList.toggle("beside", app.pictures.length > 1);
  document.body.classList.toggle("old", isOld(app));
  if (app.choices.cut.way !== "flat") Object.assign(app.choices.cut, { way: "off", place: 0.5 });
  wantShown(app);
  showLook(app);
  showMotion(app);
  fitCanvas(app);
  showWords(app);
  showSteer(app);
  showMeasurePanel(app);
  say(app, missingWords(app));
  redraw(app);
}

/**
 * Wants what is shown; of the very first picture a part is on its way, and the rest waits for that to be drawn.
 * @param {App} app
 */
export function wantShown(app) {
  for (const { state, views } of app.pictures) {
    const partly = !app.phase.ever && state === app.data.aim && app.data.home.only;
    if (views) want(app.store, state, false, true, partly || undefined);
  }
}

/** @param {App} app */
export function missingWords(app) {
  if (app.phase.name === "lost") return "The graphics card isn't available now. The picture comes back when the card does.";
  const missing = app.pictures.filter(({ views }) => !views);
  if (missing.length > 0) return "This step isn't settled yet. Its picture will follow.";
  return isOld(app) ? "The picture is still that of the figures before. The new one follows." : "";
}

/**
 * Whether something of the picture is still that of the figures before.
 * @param {App} app
 */
function isOld({ data, pictures }) {
  const old = data.old || [];
  return pictures.some(({ state, views }) => views && old.includes(state));
}

/**
 * A short message over the picture, for some ms or until the next; none where there are no words.
 * @param {App} app
 * @param {string} words
 * @param {number} [last]
 */
export function say(app, words, last) {
  app.note.textContent = words;
  app.note.hidden = !words;
  clearTimeout(app.saying);
  if (last) app.saying = setTimeout(() => say(app, ""), last);
}

/**
 * Title of an entry, for headings and the picture's own name.
 * @param {App} app
 * @param {Entry} entry
 */
export function titleOf(app, entry) {
  if (entry.kind === "aim") return "The aim: the finished splice";
  if (entry.kind === "wrong") return `Mistake at step ${entry.way.step}: ${entry.way.title}`;
  return `Step ${entry.step.name} of ${app.data.steps[app.data.steps.length - 1].name}: ${entry.step.caption}`;
}

/** @param {Entry} entry */
function placeName(entry) {
  if (entry.kind === "wrong") return "Mistake";
  return entry.kind === "aim" ? "Aim" : `Step ${entry.step.name}`;
}

/** @param {App} app */
function showSteer(app) {
  const { slider, place, before, after } = app.steer;
  slider.max = String(app.entries.length - 1);
  slider.value = String(app.at);
  slider.setAttribute("aria-valuetext", titleOf(app, app.entry));
  place.textContent = placeName(app.entry);
  const read = focused();
  before.disabled = app.at === 0;
  after.disabled = app.at === app.entries.length - 1;
  if (read.disabled) byId("title").focus();
  app.canvas.setAttribute("aria-label", `Model of the rope. ${titleOf(app, app.entry)}`);
}
