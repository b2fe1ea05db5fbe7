// Where the panels of a picture lie in the canvas, and the camera that each is first seen by.

import { byId, element } from "../dom.js";
import { sized } from "../geometry/camera.js";
import { homeCamera } from "./stage.js";

/** @import { App, Camera, Rect } from "../types" */

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
  /** @type {Rect[]} */
  const beside = [[0, 0, across, height], [across, 0, width - across, height]];
  /** @type {Rect[]} */
  const above = [[0, 0, width, down], [0, down, width, height - down]];
  const least = (/** @type {Rect[]} */ boxes) => Math.min(...boxes.map((one, i) => homeScale(app, i, one)));
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
 * Gives the canvas as many pixels as it has room for, `most` to a CSS pixel. One that has them already is left alone:
 * setting its size waits for the graphics card.
 * @param {HTMLCanvasElement} canvas
 * @param {number} most
 */
export function sizeCanvas(canvas, most) {
  const room = canvas.getBoundingClientRect();
  const ratio = Math.min(window.devicePixelRatio || 1, most);
  const [width, height] = [room.width, room.height].map((side) => Math.max(Math.round(side), 2));
  const [wide, high] = [Math.round(width * ratio), Math.round(height * ratio)];
  if (canvas.width !== wide) canvas.width = wide;
  if (canvas.height !== high) canvas.height = high;
  return { width, height, ratio };
}

/**
 * Fits canvas and cameras to the room there is.
 * @param {App} app
 */
export function fitCanvas(app) {
  app.size = sizeCanvas(app.canvas, app.slow ? 2 : 3);
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
  const side = (/** @type {Rect} */ [left, top], /** @type {number} */ i) => {
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
  for (const [name, value] of Object.entries(sizes)) made.style.setProperty(name, `${value}px`);
  return made;
}
