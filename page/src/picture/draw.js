// When the picture is drawn: quickly while something moves, finely once it rests.

import { cardDone, readNumbers } from "../card/numbers.js";
import { drawPanels } from "../card/painter.js";
import { byId, element } from "../dom.js";
import { sized } from "../geometry/camera.js";
import { ropeIn, want } from "../store.js";
import { wantShown } from "../words/entries.js";
import { clearOver, drawGhost, drawOver } from "./labels.js";
import { SIDEWAYS, faceCut } from "./look.js";
import { homeCamera, panelOf } from "./stage.js";

/** @import { App, Asked, Camera, Panel, Picture, Rect } from "../types" */

const REST = 170; // ms without a change after which the fine picture is drawn
const LONGER = 700; // ms after which a slow machine smooths the edges of a large picture too
const MOST_PIXELS = 1.3e6; // pixels that a slow machine draws at once
const SLOW = 150; // ms for the first picture beyond which device pixels are no longer drawn while moving

/**
 * Says that the picture has to be drawn again; finely after `rest` ms without a change.
 * @param {App} app
 * @param {number} [rest]
 */
export function redraw(app, rest = REST) {
  app.asked = performance.now();
  if (app.frame || app.lost) return;
  app.frame = requestAnimationFrame(() => {
    app.frame = 0;
    drawQuick(app);
    clearTimeout(app.rest);
    app.rest = setTimeout(() => drawFine(app), rest);
  });
}

/**
 * Something new is there of a state (or of the bodies beside it): drawn where it is looked at.
 * @param {App} app
 * @param {string | null} kind
 */
export function refresh(app, kind) {
  const shown = kind === null || app.pictures.some(({ state }) => state === kind);
  if (!shown) {
    if (app.pictures.some(({ ghost }) => ghost && ghost.state === kind)) drawGhost(app);
    return;
  }
  if (SIDEWAYS.includes(app.choices.cut.way)) {
    app.cameras.forEach((camera, i) => camera && !camera.moved && faceCut(app, i));
  }
  redraw(app, isAwaited(app) ? REST : 0);
}

/**
 * Whether something of the pictures shown is still being made: then the fine picture waits for it.
 * @param {App} app
 */
function isAwaited({ store, pictures, data }) {
  const { making, queue, unpacking } = store;
  const drawn = pictures.filter(({ views }) => views);
  const wanted = (order) => order && order.data === store.data && drawn.some(({ state }) => state === order.kind);
  const bodies = [data.terminator, ...drawn.map((picture) => picture.bodies)];
  return wanted(making) || queue.some(wanted) || bodies.some((record) => unpacking.has(record));
}

/**
 * Rectangles for the panels shown, CSS pixels: one, or two, divided so that both are seen larger.
 * @param {App} app
 * @param {{ width: number, height: number }} size
 * @returns {Rect[]}
 */
function boxesOf(app, { width, height }) {
  if (app.pictures.length === 1) return [[0, 0, width, height]];
  height -= app.strip;
  const [across, down] = [Math.floor(width / 2), Math.floor(height / 2)];
  const beside = [[0, 0, across, height], [across, 0, width - across, height]];
  const above = [[0, 0, width, down], [0, down, width, height - down]];
  const least = (boxes) => Math.min(...boxes.map((one, i) => homeScale(app, i, one)));
  return least(beside) >= least(above) ? beside : above;
}

const NARROW = 520; // CSS pixels of width below which the buttons over a picture have a strip of their own
const MOST_STRIP = 0.4; // share of the picture's height that the strip may take

/**
 * Height of the strip that the buttons over the picture have to themselves, CSS pixels; 0 where they lie below it.
 * @param {App} app
 * @param {{ width: number, height: number }} size
 */
function stripOf({ corner, pictures }, { width, height }) {
  if ((width >= NARROW && pictures.length === 1) || corner.offsetTop >= height) return 0;
  return Math.min(corner.offsetHeight + 8, MOST_STRIP * height);
}

/**
 * Panel i's first camera in a box.
 * @param {App} app
 * @param {number} i
 * @param {Rect} rect
 * @returns {Camera}
 */
function homeOf({ data, pictures, view, strip }, i, [, , width, height]) {
  const top = pictures.length === 1 ? strip : 0;
  return homeCamera(pictures[i], view, width, height, data.diameter, top);
}

/**
 * @param {App} app
 * @param {number} i
 * @param {Rect} box
 */
function homeScale(app, i, box) {
  return app.pictures[i].views ? homeOf(app, i, box).scale : Infinity;
}

/**
 * Fits canvas and cameras to the room there is.
 * @param {App} app
 */
export function fitCanvas(app) {
  const room = app.canvas.getBoundingClientRect();
  const ratio = Math.min(window.devicePixelRatio || 1, app.slow ? 2 : 3);
  app.size = { width: Math.max(Math.round(room.width), 2), height: Math.max(Math.round(room.height), 2), ratio };
  app.canvas.width = Math.round(app.size.width * ratio);
  app.canvas.height = Math.round(app.size.height * ratio);
  app.strip = stripOf(app, app.size);
  app.boxes = boxesOf(app, app.size);
  const scales = app.boxes.map((box, i) => homeScale(app, i, box));
  app.pictures.forEach((picture, i) => aim(app, i, Math.min(...scales)));
  showSides(app);
}

/**
 * Gives panel i its camera: the one a person left it at for this picture, or its home, two panels alike in scale.
 * @param {App} app
 * @param {number} i
 * @param {number} scale
 */
function aim(app, i, scale) {
  const [, , width, height] = app.boxes[i];
  const picture = app.pictures[i];
  if (!picture.views) return;
  const kept = app.cameras[i];
  const free = kept && kept.picture === picture && kept.moved;
  const camera = free ? kept : { ...homeOf(app, i, app.boxes[i]), scale };
  app.cameras[i] = { ...sized(camera, width, height), picture, moved: free };
}

/**
 * Says which of two panels is the right way and which the wrong one.
 * @param {App} app
 */
function showSides(app) {
  const words = ["as it should be", "wrong"];
  const side = ([left, top], i) => {
    const made = element("p", { class: i ? "side bad" : "side good", text: words[i] });
    made.style.left = `${left}px`;
    made.style.top = `${top}px`;
    return made;
  };
  byId("sides").replaceChildren(...(app.boxes.length === 2 ? [divide(app), ...app.boxes.map(side)] : []));
}

/**
 * The line between two panels.
 * @param {App} app
 */
function divide({ boxes: [, [left, top, width, height]] }) {
  const made = element("i", { class: "divide" });
  const [across, down] = left > 0 ? [1, height] : [width, 1];
  const sizes = { left, top, width: across, height: down };
  for (const [name, value] of Object.entries(sizes)) made.style[name] = `${value}px`;
  return made;
}

/**
 * @param {App} app
 * @param {boolean} fine
 * @returns {Panel[]}
 */
function panelsNow(app, fine) {
  const { ratio } = app.size;
  return app.pictures.flatMap((picture, i) => {
    const rect = app.boxes[i].map((value) => Math.round(value * ratio));
    const panel = picture.views ? panelOf(app, picture, rect, app.cameras[i], fine) : null;
    return panel ? [panel] : [];
  });
}

/** @param {App} app */
const wantedPanels = (app) => app.pictures.filter(({ views }) => views).length;

/** @param {App} app */
function drawQuick(app) {
  const began = performance.now();
  const { ratio } = app.size;
  const panels = panelsNow(app, true);
  drawPanels(app.painter, panels, { pixel: ratio, over: 1, shade: true, coarse: true });
  clearOver(app, panels.length > 0);
  if (panels.length === 0) return;
  if (app.firstTook === undefined) timeFirst(app, began);
  if (panels.length < wantedPanels(app)) return;
  if (!app.announced) announce(app);
  tellWaiting(app);
}

/**
 * Tells those who wait for the next whole picture, once the card has drawn it.
 * @param {App} app
 */
function tellWaiting(app) {
  if (app.waiting.length === 0) return;
  finish(app);
  for (const tell of app.waiting.splice(0)) tell(performance.now());
}

/**
 * How long the first picture took, waiting for the graphics card once.
 * @param {App} app
 * @param {number} began
 */
function timeFirst(app, began) {
  finish(app);
  app.firstTook = performance.now() - began;
  app.slow = app.firstTook > SLOW;
}

/** @param {App} app */
function finish({ painter: { gl } }) {
  gl.bindFramebuffer(gl.FRAMEBUFFER, null);
  gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
}

/** @param {App} app */
function announce(app) {
  app.announced = true;
  app.drawnOnce = true;
  wantShown(app);
  const root = document.documentElement;
  root.dataset.drawnAt = performance.now().toFixed(1);
  root.dataset.drawn = String(Number(root.dataset.drawn || 0) + 1);
  window.dispatchEvent(new CustomEvent("fidpath-drawn"));
}

/**
 * The fine picture, once all of it is made; on a slow machine a large one has plain edges first, smooth ones later.
 * @param {App} app
 * @param {boolean} [smooth]
 */
function drawFine(app, smooth) {
  if (app.pointers.size > 0 || app.lost) return;
  for (const picture of app.pictures) {
    const there = picture.views && ropeIn(app.store, picture.state, false);
    if (there && needsFine(app, picture)) want(app.store, picture.state, true, true);
  }
  if (isAwaited(app)) return;
  const panels = panelsNow(app, true);
  if (panels.length === 0 || panels.length < wantedPanels(app)) return;
  const over = app.size.ratio >= 2 ? 1 : 2;
  const later = app.slow && !smooth && app.canvas.width * app.canvas.height * over * over > MOST_PIXELS;
  const asked = smooth ? null : [];
  drawPanels(app.painter, panels, { pixel: 1, over: later ? 1 : over, shade: true, coarse: false, asked });
  if (smooth) return;
  app.fine += 1;
  setWords(app, asked, later);
}

/**
 * Sets the words over a fine picture when the card has drawn it, and tells those who wait for that.
 * @param {App} app
 * @param {Asked[]} asked
 * @param {boolean} later
 */
async function setWords(app, asked, later) {
  const { painter, fine } = app;
  const began = app.asked;
  const done = await cardDone(painter);
  if (!done || painter !== app.painter) return;
  const numbers = asked.map((each) => readNumbers(painter, each));
  if (app.asked !== began || app.fine !== fine) return;
  drawOver(app, numbers);
  if (later) app.rest = setTimeout(() => drawFine(app, true), LONGER);
  app.rested = performance.now();
  for (const tell of app.resting.splice(0)) tell(performance.now());
  wantNeighbours(app);
}

/**
 * Whether strands are drawn so wide that coarse tubes show their facets.
 * @param {App} app
 * @param {Picture} picture
 */
function needsFine(app, picture) {
  const camera = app.cameras[app.pictures.indexOf(picture)];
  return camera.scale * app.size.ratio * app.data.states[picture.state].thickness > 3.5;
}

/**
 * Makes ready what a person is likely to look at next.
 * @param {App} app
 */
function wantNeighbours(app) {
  for (const step of [1, -1, 2]) {
    const entry = app.entries[app.at + step];
    for (const { state, views } of entry ? entry.pictures : []) if (views) want(app.store, state, false, false);
  }
}
