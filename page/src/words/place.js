// The place that is kept: in the address, so that reloading and Back find it; ticked checks, on this device.

import { byId, element } from "../dom.js";
import { setBench } from "../frame.js";
import { crc32 } from "../geometry/decode.js";
import { recall, remember } from "../kept.js";
import { goToKey } from "../start.js";
import { setPractice } from "./practice.js";
import { showWords } from "./wordview.js";

/** @import { App, PageData, StepRecord } from "../types" */

const MOMENT = 800; // ms within which a further step takes the place of the one before in the browser's history
const MODES = ["bench", "practise"];

/**
 * What an address's fragment names: an entry's key and a mode; a bare key is one too.
 * @param {string} hash
 * @returns {{ at: string, mode: string }}
 */
export function placeOf(hash) {
  const named = new URLSearchParams(hash.slice(1));
  const bare = [...named.keys()].find((name) => !MODES.includes(name)) || "";
  return { at: named.get("at") || bare, mode: MODES.find((mode) => named.has(mode)) || "" };
}

/**
 * The fragment of what is shown. Practice stands at the step that it returns to.
 * @param {App} app
 */
function fragmentOf(app) {
  const entry = app.practice.on ? app.all.steps[app.leftAt || 0] : app.entry;
  const mode = app.practice.on ? "&practise" : app.bench ? "&bench" : "";
  return `#at=${entry.key}${mode}`;
}

/**
 * Writes the place into the address: as a place of its own that Back returns to, unless one goes on at once.
 * @param {App} app
 */
export function keepPlace(app) {
  const fragment = fragmentOf(app);
  const opening = app.fragment === undefined;
  if (fragment === app.fragment) return;
  app.fragment = fragment;
  if (opening || app.returning) return;
  const now = performance.now();
  const way = now - app.keptAt < MOMENT ? "replaceState" : "pushState";
  app.keptAt = now;
  try {
    history[way](null, "", fragment);
  } catch (refused) {
    // some browsers refuse this to files, or when it is asked for often: then the place isn't kept
  }
}

/**
 * Shows the place in the address, after Back and Forward or a change by hand.
 * @param {App} app
 */
function returnTo(app) {
  const { at, mode } = placeOf(location.hash);
  app.returning = true;
  if (app.practice.on !== (mode === "practise")) setPractice(app, mode === "practise");
  if (app.bench !== (mode === "bench")) setBench(app, mode === "bench");
  if (!app.practice.on) goToKey(app, at);
  app.returning = false;
  app.fragment = fragmentOf(app);
}

/**
 * Opens the mode that the address names, and listens for others.
 * @param {App} app
 */
export function makePlace(app) {
  const { mode } = placeOf(location.hash);
  if (mode === "bench") setBench(app, true);
  if (mode === "practise" && app.data.practice.length > 0) setPractice(app, true);
  window.addEventListener("popstate", () => returnTo(app));
}

/**
 * The name that something of a splice is kept under: what belongs to other figures than these isn't this splice's.
 * @param {string} what
 * @param {PageData} data
 */
export function keptName(what, { name, method, tables }) {
  const figures = [...tables.marks, ...tables.lengths].map(({ label, shown }) => [label, shown]);
  return `fidpath ${what} ${method} ${name} ${crc32(JSON.stringify(figures))}`;
}

/** @param {PageData} data */
const ticksName = (data) => keptName("checks", data);

/**
 * The names of the steps whose checks are ticked, in their order.
 * @param {App} app
 * @returns {string[]}
 */
function ticked({ data }) {
  const kept = (recall(ticksName(data)) || "").split(" ");
  return data.steps.map(({ name }) => name).filter((name) => kept.includes(name));
}

/**
 * @param {App} app
 * @param {string} name
 * @param {boolean} on
 */
function tick(app, name, on) {
  const others = ticked(app).filter((other) => other !== name);
  remember(ticksName(app.data), [...others, ...(on ? [name] : [])].join(" "));
}

/**
 * A step's check, to be ticked.
 * @param {App} app
 * @param {StepRecord} step
 */
export function checkBox(app, step) {
  const id = `check-${step.name}`;
  const input = element("input", { type: "checkbox", id, checked: ticked(app).includes(step.name) });
  input.addEventListener("change", () => tick(app, step.name, input.checked));
  const words = element("label", { for: id }, element("b", { text: "Check. " }), step.check);
  return element("div", { class: "check tick" }, input, words);
}

/**
 * What has been ticked so far, the way on from there, and how to begin anew; nothing where nothing is.
 * @param {App} app
 */
export function ticksSoFar(app) {
  const names = ticked(app);
  if (names.length === 0) return [];
  const steps = app.data.steps.map(({ name }) => name);
  const next = steps[steps.indexOf(names[names.length - 1]) + 1];
  const on = () => goToKey(app, `step-${next}`);
  const anew = () => {
    remember(ticksName(app.data), "");
    showWords(app);
    byId("title").focus();
  };
  return [
    element("p", { text: `${names.length} of ${steps.length} checks are ticked.` }),
    next ? element("button", { type: "button", class: "next", text: `Go on at step ${next}`, onclick: on }) : null,
    element("button", { type: "button", text: "Clear the ticks", onclick: anew }),
  ];
}
