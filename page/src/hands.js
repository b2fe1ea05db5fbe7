// Fingers, mouse, wheel and keys.

import { byId } from "./dom.js";
import { setBench } from "./frame.js";
import { handled, orbited, panned, zoomed } from "./geometry/camera.js";
import { pinched, slipped, stroke, wheeled } from "./geometry/gestures.js";
import { fitCanvas } from "./picture/boxes.js";
import { redraw } from "./picture/draw.js";
import { goHome, moveCameras, zoomAll } from "./picture/look.js";
import { measureFrom, pickAt } from "./picture/measure.js";
import { goTo, say } from "./words/entries.js";
import { setPractice } from "./words/practice.js";
import { leaveWrong } from "./words/wordview.js";

/** @import { App, Pointer, Rect, Spot } from "./types" */

/** @type {Record<string, number>} */
const REACH = { touch: 22, pen: 10, mouse: 3 }; // CSS pixels from the rope at which it still is what is measured

/** @param {App} app */
export function makeHands(app) {
  const { canvas } = app;
  canvas.addEventListener("pointerdown", (event) => pointerDown(app, event));
  canvas.addEventListener("pointermove", (event) => pointerMove(app, event));
  canvas.addEventListener("pointerup", (event) => pointerUp(app, event));
  canvas.addEventListener("pointercancel", (event) => pointerUp(app, event));
  canvas.addEventListener("wheel", (event) => wheel(app, event), { passive: false });
  canvas.addEventListener("dblclick", () => goHome(app));
  canvas.addEventListener("contextmenu", (event) => event.preventDefault());
  document.addEventListener("keydown", (event) => key(app, event));
  makeSwipe(app, byId("words"));
  new ResizeObserver(() => {
    fitCanvas(app);
    redraw(app);
  }).observe(byId("picture"));
}

/**
 * Where an event lies in the canvas, CSS pixels.
 * @param {App} app
 * @param {MouseEvent} event
 * @returns {Spot}
 */
function spotOf({ canvas }, event) {
  const box = canvas.getBoundingClientRect();
  return [event.clientX - box.left, event.clientY - box.top];
}

/**
 * The panel under a spot, and the spot in that panel.
 * @param {App} app
 * @param {Spot} spot
 */
function panelAt(app, [x, y]) {
  const inside = (/** @type {Rect} */ [left, top, width, height]) => x >= left && y >= top && x < left + width && y < top + height;
  const found = app.boxes.findIndex(inside);
  const i = Math.max(found, 0);
  return { i, x: x - app.boxes[i][0], y: y - app.boxes[i][1] };
}

/**
 * @param {App} app
 * @param {PointerEvent} event
 */
function pointerDown(app, event) {
  app.canvas.setPointerCapture(event.pointerId);
  const spot = spotOf(app, event);
  app.pointers.set(event.pointerId, { spot, start: spot, button: event.button, slipped: false });
  app.pinched = app.pointers.size > 1;
}

/**
 * @param {App} app
 * @param {PointerEvent} event
 */
function pointerMove(app, event) {
  const held = app.pointers.get(event.pointerId);
  if (!held) return;
  const spot = spotOf(app, event);
  const [dx, dy] = [spot[0] - held.spot[0], spot[1] - held.spot[1]];
  if (slipped(held.start, spot)) held.slipped = true;
  if (!held.slipped) return;
  if (app.pointers.size > 1) pinch(app, held, spot);
  else if (held.button !== 0 || event.shiftKey) moveCameras(app, (camera) => panned(camera, dx, dy));
  else moveCameras(app, (camera) => orbited(camera, dx, dy));
  held.spot = spot;
}

/**
 * Two fingers: nearer as they part, moved with their middle, rolled as they turn.
 * @param {App} app
 * @param {Pointer} held
 * @param {Spot} spot
 */
function pinch(app, held, spot) {
  const { spot: other } = [...app.pointers.values()].find((pointer) => pointer !== held) || held;
  const { factor, turn, shift, middle } = pinched(held.spot, spot, other);
  const { i, x, y } = panelAt(app, middle);
  const [, , width, height] = app.boxes[i];
  moveCameras(app, (camera) => handled(camera, { factor, turn, shift }, [x - width / 2, y - height / 2]));
}

/**
 * @param {App} app
 * @param {PointerEvent} event
 */
function pointerUp(app, event) {
  const held = app.pointers.get(event.pointerId);
  app.pointers.delete(event.pointerId);
  if (held && !held.slipped && !app.pinched && event.type === "pointerup") tap(app, held.spot, event);
  redraw(app);
}

/**
 * A tap: with the measuring panel open a place of the rope.
 * @param {App} app
 * @param {Spot} spot
 * @param {PointerEvent} event
 */
function tap(app, spot, { pointerType }) {
  if (app.tab !== "measure" || app.motion < 1 || app.phase.name === "lost") return;
  const { i, x, y } = panelAt(app, spot);
  const found = app.pictures[i].views ? pickAt(app, i, x, y, REACH[pointerType] || REACH.mouse) : null;
  if (found) measureFrom(app, found);
  else say(app, "No rope there.", 2500);
}

/**
 * @param {App} app
 * @param {WheelEvent} event
 */
function wheel(app, event) {
  event.preventDefault();
  const { i, x, y } = panelAt(app, spotOf(app, event));
  const [, , width, height] = app.boxes[i];
  moveCameras(app, (camera) => zoomed(camera, wheeled(event.deltaY), [x - width / 2, y - height / 2]));
}

/** @type {Record<string, Spot>} */
const TURN_KEYS = { ArrowLeft: [-40, 0], ArrowRight: [40, 0], ArrowUp: [0, -40], ArrowDown: [0, 40] };

/**
 * Arrows step; with Shift they turn the model, with Shift and Alt they move it; + and - zoom, 0 is home.
 * @param {App} app
 * @param {KeyboardEvent} event
 */
function key(app, event) {
  if (event.ctrlKey || event.metaKey) return;
  if (event.key === "Escape") escape(app);
  if (app.practice.on) return;
  const turn = TURN_KEYS[event.key];
  if (turn && event.shiftKey) {
    event.preventDefault();
    moveCameras(app, (camera) => (event.altKey ? panned(camera, ...turn) : orbited(camera, ...turn)));
    return;
  }
  const paging = event.key in PAGES;
  if (event.altKey || elementOf(event).closest(`input, select, textarea${paging ? "" : ", [role=tab]"}`)) return;
  const act = paging ? pageKey(app, event, PAGES[event.key]) : STEP_KEYS[event.key];
  if (!act) return;
  act(app);
  event.preventDefault();
}

const elementOf = (/** @type {Event} */ event) => /** @type {Element} */ (event.target);

/** @type {Record<string, (app: App) => void>} */
const STEP_KEYS = {
  ArrowLeft: (app) => goTo(app, app.at - 1),
  ArrowRight: (app) => goTo(app, app.at + 1),
  "+": (app) => zoomAll(app, 1.35),
  "=": (app) => zoomAll(app, 1.35),
  "-": (app) => zoomAll(app, 1 / 1.35),
  0: goHome,
};
/** @type {Record<string, number>} */
const PAGES = { PageUp: -1, PageDown: 1 };

/**
 * What a key for whole pages does: scrolls the panel that is read, if there is one; else goes to another step.
 * @param {App} app
 * @param {KeyboardEvent} event
 * @param {number} way
 */
function pageKey(app, event, way) {
  if (elementOf(event).closest("[role=tabpanel]")) return null;
  if (app.tab === "words") return () => goTo(app, app.at + way);
  const panel = byId(app.tab);
  return () => panel.scrollBy({ top: 0.9 * way * panel.clientHeight });
}

/** @param {App} app */
function escape(app) {
  if (app.practice.on) setPractice(app, false);
  else if (app.bench) setBench(app, false);
  else if (app.entry.kind === "wrong") leaveWrong(app);
}

/**
 * A stroke to the side over some words goes to the step before or after.
 * @param {App} app
 * @param {HTMLElement} over
 */
function makeSwipe(app, over) {
  /** @type {Spot | null} */
  let start = null;
  over.addEventListener("touchstart", (event) => {
    start = event.touches.length === 1 ? [event.touches[0].clientX, event.touches[0].clientY] : null;
  }, { passive: true });
  over.addEventListener("touchend", (event) => {
    if (!start) return;
    const { clientX, clientY } = event.changedTouches[0];
    const way = stroke(start, [clientX, clientY]);
    start = null;
    if (way !== 0) goTo(app, app.at + way);
  }, { passive: true });
}
