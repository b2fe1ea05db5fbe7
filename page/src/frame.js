// What stands round picture and words: tabs, steps, bench view, light and dark.

import { byId } from "./dom.js";
import { recall, remember } from "./kept.js";
import { redraw } from "./picture/draw.js";
import { goTo } from "./words/entries.js";
import { keepPlace } from "./words/place.js";
import { setPractice } from "./words/practice.js";

/** @import { App } from "./types" */

const TABS = ["words", "look", "measure", "marks", "wrongs", "care"];

/**
 * Opens one of the panels beside the picture.
 * @param {App} app
 * @param {string} name
 */
export function openTab(app, name) {
  app.tab = name;
  document.body.dataset.tab = name;
  for (const tab of TABS) {
    byId(tab).hidden = tab !== name;
    const button = byId(`tab-${tab}`);
    button.setAttribute("aria-selected", String(tab === name));
    button.tabIndex = tab === name ? 0 : -1;
  }
  app.canvas.classList.toggle("picking", name === "measure");
}

/** @param {App} app */
export function makeTabs(app) {
  for (const tab of TABS) byId(`tab-${tab}`).addEventListener("click", () => openTab(app, tab));
  byId("tabs").addEventListener("keydown", (event) => {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (!step) return;
    event.preventDefault();
    const next = TABS[(TABS.indexOf(app.tab) + step + TABS.length) % TABS.length];
    openTab(app, next);
    byId(`tab-${next}`).focus();
  });
}

/**
 * @param {App} app
 * @param {boolean} on
 */
export function setBench(app, on) {
  app.bench = on;
  document.body.classList.toggle("benching", on);
  byId("bench").setAttribute("aria-pressed", String(on));
  if (on && app.practice.on) setPractice(app, false);
  if (on) openTab(app, "words");
  keepAwake(app);
  keepPlace(app);
}

/**
 * Keeps the screen on in Bench, where the browser can; it lets go whenever the page is hidden, so it is asked again.
 * @param {App} app
 */
async function keepAwake(app) {
  const wanted = () => app.bench && document.visibilityState === "visible";
  if (!navigator.wakeLock) return;
  if (!wanted()) {
    if (app.awake) app.awake.release();
    app.awake = null;
    return;
  }
  if (app.waking || (app.awake && !app.awake.released)) return;
  app.waking = true;
  try {
    app.awake = await navigator.wakeLock.request("screen");
  } catch (refused) {
    app.awake = null; // a device that saves its battery may refuse
  }
  app.waking = false;
  if (!wanted()) keepAwake(app);
}

/** Light or dark: as the device has it, until a person says otherwise. */
export function makeLight() {
  const set = (/** @type {string} */ light) => {
    document.documentElement.dataset.light = light;
    byId("light").textContent = light === "dark" ? "Light" : "Dark";
  };
  const device = window.matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
  set(recall("fidpath light") || device);
  byId("light").addEventListener("click", () => {
    const light = document.documentElement.dataset.light === "dark" ? "light" : "dark";
    set(light);
    remember("fidpath light", light);
  });
}

/** @param {App} app */
export function makeSteer(app) {
  const { slider, before, after } = app.steer;
  slider.addEventListener("input", () => goTo(app, Number(slider.value)));
  before.addEventListener("click", () => goTo(app, app.at - 1));
  after.addEventListener("click", () => goTo(app, app.at + 1));
  byId("light").addEventListener("click", () => redraw(app));
  byId("bench").addEventListener("click", () => setBench(app, !app.bench));
  document.addEventListener("visibilitychange", () => keepAwake(app));
  byId("practise").addEventListener("click", () => setPractice(app, !app.practice.on));
}
