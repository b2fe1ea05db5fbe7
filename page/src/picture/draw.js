// When the picture is drawn: quickly while something moves, finely once it rests.

import { cardDone, readNumbers } from "../card/numbers.js";
import { drawPanels } from "../card/painter.js";
import { ropeIn, want } from "../store.js";
import { wantShown } from "../words/entries.js";
import { clearOver, drawGhost, drawOver } from "./labels.js";
import { SIDEWAYS, faceCut } from "./look.js";
import { next } from "./phases.js";
import { panelOf } from "./stage.js";

/** @import { App, Asked, Deed, Happening, Order, Panel, Picture, Rect } from "../types" */

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
  happen(app, { is: "changed", rest });
}

/**
 * Goes on to the state that a happening leads to, and does what belongs to it.
 * @param {App} app
 * @param {Happening} happening
 */
export function happen(app, happening) {
  const { phase, deeds } = next(app.phase, happening);
  app.phase = phase;
  for (const deed of deeds) DEEDS[deed](app);
}

/** @type {Record<Deed, (app: App) => void>} */
const DEEDS = {
  frame: (app) => requestAnimationFrame(() => drawQuick(app)),
  stop: (app) => clearTimeout(app.rest),
  wait: (app) => wait(app, app.phase.rest),
  "wait longer": (app) => wait(app, LONGER),
  fine: (app) => drawFine(app),
  smooth: (app) => drawPanels(app.painter, panelsNow(app, true), { ...FINE, over: overOf(app) }),
  words: setWords,
  announce,
  bare: (app) => {
    clearOver(app, false);
    app.under.replaceChildren();
  },
  refill: wantShown,
};

/**
 * @param {App} app
 * @param {number} time
 */
function wait(app, time) {
  app.rest = setTimeout(() => {
    wantFine(app);
    happen(app, { is: "rested", held: app.pointers.size > 0, awaited: isAwaited(app) });
  }, time);
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
    if (app.motion < 1) redraw(app);
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
  const wanted = (/** @type {Order | null} */ order) => order !== null && order.data === store.data && drawn.some(({ state }) => state === order.kind);
  const bodies = [data.terminator, ...drawn.map((picture) => picture.bodies)];
  return wanted(making) || queue.some(wanted) || bodies.some((record) => record !== null && unpacking.has(record));
}

/**
 * @param {App} app
 * @param {boolean} fine
 * @returns {Panel[]}
 */
function panelsNow(app, fine) {
  const { ratio } = app.size;
  return app.pictures.flatMap((picture, i) => {
    const rect = /** @type {Rect} */ (app.boxes[i].map((value) => Math.round(value * ratio)));
    const panel = picture.views ? panelOf(app, picture, rect, app.cameras[i], fine) : null;
    return panel ? [panel] : [];
  });
}

/** @param {App} app */
const wantedPanels = (app) => app.pictures.filter(({ views }) => views).length;

/** @param {App} app */
function drawQuick(app) {
  if (app.phase.name !== "drawing") return;
  const began = performance.now();
  const panels = panelsNow(app, true);
  drawPanels(app.painter, panels, { pixel: app.size.ratio, over: 1, shade: true, coarse: true });
  clearOver(app, panels.length > 0);
  if (panels.length > 0 && app.firstTook === undefined) timeFirst(app, began);
  const whole = panels.length > 0 && panels.length === wantedPanels(app) && !panels.some(({ former }) => former);
  happen(app, { is: "drawn", whole });
  if (whole) tellWaiting(app);
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
  wantShown(app);
  const root = document.documentElement;
  root.dataset.drawnAt = performance.now().toFixed(1);
  root.dataset.drawn = String(Number(root.dataset.drawn || 0) + 1);
  window.dispatchEvent(new CustomEvent("fidpath-drawn"));
}

/**
 * Wants fine tubes of what is shown, where the coarse ones would show their facets.
 * @param {App} app
 */
function wantFine(app) {
  for (const picture of app.pictures) {
    const there = picture.views && ropeIn(app.store, picture.state, false);
    if (there && app.motion === 1 && needsFine(app, picture)) want(app.store, picture.state, true, true);
  }
}

const FINE = { pixel: 1, shade: true, coarse: false };

/**
 * Places drawn to a pixel, each way: one where pixels are small.
 * @param {App} app
 */
const overOf = ({ size }) => (size.ratio >= 2 ? 1 : 2);

/**
 * The fine picture; on a slow machine a large one has plain edges first, smooth ones later.
 * @param {App} app
 */
async function drawFine(app) {
  const over = overOf(app);
  const later = app.slow && app.canvas.width * app.canvas.height * over * over > MOST_PIXELS;
  const { painter } = app;
  const { turn } = app.phase;
  /** @type {Asked[]} */
  const asked = [];
  drawPanels(painter, panelsNow(app, true), { ...FINE, over: later ? 1 : over, asked });
  app.fine += 1;
  const done = await cardDone(painter);
  if (!done || painter !== app.painter) return;
  app.written = asked.map((each) => readNumbers(painter, each));
  happen(app, { is: "written", turn, later });
}

/**
 * Sets the words over a fine picture, tells those who wait for that, and makes ready what may be looked at next.
 * @param {App} app
 */
function setWords(app) {
  drawOver(app, app.written.slice());
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
