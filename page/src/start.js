// Opens the page: checks that it is whole, draws if the browser can, shows pictures and tables where it can't.

import { painterOf, warmUp } from "./card/painter.js";
import { byId, control, element, saidBy } from "./dom.js";
import { makeLight, makeSteer, makeTabs, openTab } from "./frame.js";
import { crc32 } from "./geometry/decode.js";
import { handlesOf } from "./handles.js";
import { makeHands } from "./hands.js";
import { fitCanvas, sizeCanvas } from "./picture/boxes.js";
import { happen, redraw, refresh } from "./picture/draw.js";
import { makeLook } from "./picture/look.js";
import { makeMotion } from "./picture/motion.js";
import { OPENING } from "./picture/phases.js";
import { openingChoices } from "./picture/stage.js";
import { refill, storeOf, want } from "./store.js";
import { makeReader } from "./words/aloud.js";
import { entriesOf, goTo, missingWords, say, showEntry } from "./words/entries.js";
import { makeMeasuring, showMeasuring } from "./words/measuring.js";
import { makePlace, placeOf } from "./words/place.js";
import { setPractice } from "./words/practice.js";
import { makePrint } from "./words/printing.js";
import { SILENT } from "./words/reading.js";
import { showTables } from "./words/tables.js";

/** @import { App, PageData } from "./types" */

const SCHEMA = 1;

/**
 * What a text holds as a page's data. Raises in words where it isn't that.
 * @param {string} text
 * @returns {PageData}
 */
function dataOf(text) {
  let data;
  try {
    data = JSON.parse(text);
  } catch (problem) {
    throw new Error(`the page's data can't be read (${saidBy(problem)})`);
  }
  if (data === null || data.page !== SCHEMA) throw new Error("these are no data of a splice for this page");
  for (const part of ["name", "steps", "wrong", "states", "tables", "practice", "measuring", "law", "palette"]) {
    if (data[part] === undefined) throw new Error(`the page's data lack their ${part}`);
  }
  return data;
}

/** Raises where the page's data aren't as long as they were made, or have been changed on the way. */
function checkWhole() {
  const block = byId("data");
  const { length, crc } = block.dataset;
  const text = block.textContent;
  if (text.length !== Number(length)) {
    throw new Error(`this page is cut short: ${text.length} of ${length} characters of its data are here`);
  }
  if (crc32(text) !== Number(crc)) {
    throw new Error("this page was damaged on its way: its data don't match their check sum");
  }
  return text;
}

/**
 * All that a page knows while it is open.
 * @param {PageData} data
 * @param {HTMLCanvasElement} canvas
 * @returns {App}
 */
function appOf(data, canvas) {
  const store = storeOf(data, (kind) => refresh(app, kind), (words) => say(app, words));
  want(store, data.aim, false, true, data.home.only); // the worker is at it while the card makes itself ready
  const size = sizeCanvas(canvas, 3);
  const painter = painterOf(canvas);
  store.painter = painter;
  warmUp(painter);
  const all = entriesOf(data);
  /** @type {App} */
  const app = {
    ...{ data, canvas, painter, store, choices: openingChoices(), pointers: new Map(), pinched: false },
    ...{ all, entries: all.steps, entry: all.aim, at: -1, leftAt: 0, view: 0, into: null, tab: "words", bench: false },
    ...{ cameras: [], pictures: [], boxes: [], measured: { points: [] } },
    ...{ practice: { on: false, at: 0, tries: 0, first: 0, done: false } },
    ...{ labels: byId("labels"), over: byId("over"), under: byId("under"), note: byId("note") },
    ...{ corner: byId("corner"), covers: [byId("corner"), byId("sides"), byId("motion")], strip: 0 },
    ...{ size, phase: OPENING, written: [], fine: 0, slow: false, firstTook: undefined },
    ...{ rest: undefined, saying: undefined, waiting: [], resting: [], awake: null, waking: false },
    ...{ motion: 1, moving: null, reading: SILENT, aloud: undefined, spoken: null, fragment: undefined, returning: false, keptAt: 0 },
    steer: { slider: control("slider"), place: byId("place"), before: control("before"), after: control("after") },
  };
  return app;
}

/**
 * Takes data into a page: all entries anew, the entry with this key shown where there is one.
 * @param {App} app
 * @param {PageData} data
 * @param {string} key
 */
function take(app, data, key) {
  app.data = data;
  refill(app.store, data, app.pictures.map(({ state }) => state));
  app.all = entriesOf(data);
  happen(app, { is: "renewed" });
  document.title = `${data.name}: ${data.title}`;
  byId("job").textContent = data.name;
  byId("method").textContent = data.title;
  byId("practise").hidden = data.practice.length === 0;
  showTables(app);
  showMeasuring(app);
  app.measured.points = [];
  goToKey(app, key);
}

/**
 * Shows the entry of a key, the first where there is none of it.
 * @param {App} app
 * @param {string} key
 */
export function goToKey(app, key) {
  const wrong = app.all.wrong.some((entry) => entry.key === key);
  app.entries = wrong ? app.all.wrong : app.all.steps;
  goTo(app, Math.max(app.entries.findIndex((entry) => entry.key === key), 0));
}

/**
 * Other data for the page that is open: what is shown stays what it was, as far as the new data have it.
 * @param {App} app
 * @param {string} text
 */
function load(app, text) {
  const data = dataOf(text);
  const { key } = app.entry;
  const cameras = app.cameras.map((camera) => camera && camera.moved && { ...camera, state: camera.picture.state });
  if (app.practice.on) setPractice(app, false);
  take(app, data, key);
  cameras.forEach((camera, i) => {
    const picture = app.pictures[i];
    if (camera && picture && picture.state === camera.state) app.cameras[i] = { ...camera, picture, moved: true };
  });
  fitCanvas(app);
  redraw(app);
}

/**
 * A graphics card that was taken away and comes back is filled again.
 * @param {App} app
 */
function makeRecovery(app) {
  app.canvas.addEventListener("webglcontextlost", (event) => {
    event.preventDefault();
    happen(app, { is: "lost" });
    say(app, missingWords(app));
  });
  app.canvas.addEventListener("webglcontextrestored", () => {
    try {
      app.painter = painterOf(app.canvas);
    } catch (problem) {
      say(app, `The picture can't come back: ${saidBy(problem)}. Load the page again.`);
      return;
    }
    app.store.painter = app.painter;
    app.store.kept.clear();
    app.store.former.clear();
    app.store.bodies.clear();
    app.moving = null;
    happen(app, { is: "restored" });
    showEntry(app);
  });
}

/**
 * Shows pictures and tables, and why there is no model.
 * @param {string} reason
 */
function showPlain(reason) {
  const words = `The 3D model can't be shown here: ${reason}. Below are the pictures, words and tables.`;
  byId("plain").prepend(element("p", { class: "caution", role: "alert", text: words }));
  byId("plain").classList.add("shown");
  for (const id of ["live", "bench", "practise"]) byId(id).remove();
  window.fidpathLoad = () => {
    throw new Error(`there is no model to put them in: ${reason}`);
  };
}

/**
 * Says that the page is broken, and shows nothing of it.
 * @param {string} reason
 */
function showBroken(reason) {
  for (const id of ["live", "plain"]) byId(id).remove();
  document.body.append(element("p", { class: "broken", role: "alert", text: `${reason}. Ask for the file again.` }));
}

/** Begins, once all of the file is there: its last rule takes the notice away that it is cut short. */
export function start() {
  if (getComputedStyle(/** @type {Element} */ (document.querySelector(".partial"))).display !== "none") return;
  makeLight();
  document.documentElement.classList.add("scripted");
  let data;
  try {
    data = dataOf(checkWhole());
  } catch (problem) {
    showBroken(saidBy(problem));
    return;
  }
  byId("live").hidden = false;
  try {
    if (!("DecompressionStream" in window)) throw new Error("this browser is too old to unpack it");
    open(data);
  } catch (problem) {
    showPlain(saidBy(problem));
  }
}

/** @param {PageData} data */
function open(data) {
  const app = appOf(data, /** @type {HTMLCanvasElement} */ (byId("canvas")));
  makeLook(app);
  makeTabs(app);
  makeMeasuring(app);
  makePrint();
  makeMotion(app);
  makeReader(app);
  makeSteer(app);
  makeHands(app);
  makeRecovery(app);
  take(app, data, placeOf(location.hash).at);
  openTab(app, "words");
  makePlace(app);
  window.fidpathLoad = (text) => load(app, text);
  window.fidpathPage = handlesOf(app);
}
