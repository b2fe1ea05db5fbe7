// The words beside the picture: a step's, a mistake's.

import { byId, cssColour, element, listOf } from "../dom.js";
import { openTab, setBench } from "../frame.js";
import { readOn } from "./aloud.js";
import { goTo, titleOf } from "./entries.js";
import { checkBox, ticksSoFar } from "./place.js";
import { stepMarks } from "./tables.js";

/** @import { App, Colour, Picture, StepEntry, StepRecord, WrongEntry, WrongRecord } from "../types" */

/** @param {App} app */
export function showWords(app) {
  const { entry } = app;
  const words = entry.kind === "wrong" ? wrongWords(app, entry.way) : stepWords(app, entry);
  const read = byId("words").contains(document.activeElement);
  byId("words").replaceChildren(...words.filter((word) => word !== null));
  if (read && !byId("words").contains(document.activeElement)) byId("title").focus();
  byId("words").scrollTop = 0;
  readOn(app);
}

/**
 * @param {App} app
 * @param {StepEntry} entry
 */
function stepWords(app, entry) {
  const title = element("h2", { id: "title", tabindex: "-1", text: titleOf(app, entry) });
  const colours = colourKey(app, entry.pictures[0]);
  if (entry.kind === "aim") {
    const how = "Turn it with a finger or the mouse. Then go through the steps one by one.";
    const words = [app.data.summary, how].map((text) => element("p", { text }));
    return [title, ...words, ...ticksSoFar(app), colours, caution(app.data.caution)];
  }
  const { step } = entry;
  const care = step.caution ? [caution(step.caution)] : [];
  const marks = stepMarks(app, entry.pictures[0]);
  const tick = checkBox(app, step);
  return [title, listOf("ol", step.instructions), marks, tick, ...care, ...typing(app, step), ...mistakesHere(app, step), colours];
}

/**
 * The way to where what was measured is typed in, at the last step.
 * @param {App} app
 * @param {StepRecord} step
 */
function typing(app, step) {
  if (step !== app.data.steps[app.data.steps.length - 1]) return [];
  const onclick = () => {
    if (app.bench) setBench(app, false);
    openTab(app, "measure");
    byId("typed").scrollIntoView({ block: "start" });
    byId("typed").querySelector("input")?.focus({ preventScroll: true });
  };
  return [element("button", { type: "button", text: "Type in what you measured", onclick })];
}

/** @param {string} text */
const caution = (text) => element("p", { class: "caution" }, element("b", { text: "Take care. " }), text);

/**
 * What the colours of a picture mean.
 * @param {App} app
 * @param {Picture} picture
 */
function colourKey({ data }, { paint }) {
  if (!paint) return "";
  const swatch = (/** @type {Colour[]} */ colours, /** @type {string} */ words) =>
    element("li", {}, ...colours.map((colour) => tinted(element("i", { class: "swatch" }), colour)), words);
  const items = paint.names.map((name, i) => swatch(paint.pairs[i], name));
  if (paint.toned.length > 0) {
    items.push(swatch([data.palette.groups[0]], "top group"), swatch([data.palette.groups[1]], "bottom group"));
    if (paint.toned.some(({ followed }) => followed > 0)) {
      items.push(swatch([data.palette.groups[2]], "one strand of the group"));
    }
    items.push(swatch([data.palette.dot[0]], "dotted face"), swatch([data.palette.plainFace], "plain face"));
  }
  return element("ul", { class: "key", "aria-label": "Colours" }, ...items);
}

/**
 * @param {HTMLElement} made
 * @param {Colour} colour
 */
function tinted(made, colour) {
  made.style.background = cssColour(colour);
  return made;
}

/**
 * Buttons to the mistakes that are made at a step.
 * @param {App} app
 * @param {StepRecord} step
 */
function mistakesHere(app, step) {
  const ways = app.all.wrong.filter(({ way }) => String(way.step) === step.name.replace(/[a-z]$/, ""));
  if (ways.length === 0) return [];
  const button = (/** @type {WrongEntry} */ entry) =>
    element("button", { type: "button", class: "link", text: entry.way.title, onclick: () => showWrong(app, entry) });
  return [element("div", { class: "here" }, element("h3", { text: "What goes wrong here" }), ...ways.map(button))];
}

/**
 * @param {App} app
 * @param {WrongRecord} way
 */
function wrongWords(app, way) {
  const off = way.off ? [element("h3", { text: "How far off" }), element("p", { text: way.off })] : [];
  return [
    element("h2", { id: "title", tabindex: "-1", text: titleOf(app, app.entry) }),
    element("h3", { text: "What gives it away" }),
    listOf("ul", way.signs),
    ...off,
    element("h3", { text: "Remedy" }),
    listOf("ol", way.back),
    caution(app.data.doubt),
    element("button", { type: "button", text: "Back to the steps", onclick: () => leaveWrong(app) }),
  ];
}

/**
 * Shows a mistake beside the right way; the steps are returned to where they were left.
 * @param {App} app
 * @param {WrongEntry} entry
 */
export function showWrong(app, entry) {
  if (app.entries === app.all.steps) app.leftAt = app.at;
  app.entries = app.all.wrong;
  goTo(app, app.all.wrong.indexOf(entry));
  openTab(app, "words");
  byId("title").focus();
}

/** @param {App} app */
export function leaveWrong(app) {
  app.entries = app.all.steps;
  goTo(app, app.leftAt || 0);
}
