// Looking into a hole: the camera aimed into it, and the strands before it seen through.

import { bits } from "../card/gpu.js";
import { byId } from "../dom.js";
import { axesOf, sized } from "../geometry/camera.js";
import { add, cross, dot, times, unit } from "../geometry/vectors.js";
import { redraw } from "./draw.js";
import { goHome } from "./look.js";

/** @import { App, Camera, HoleRecord, Picture, Uniforms, Vector } from "../types" */

const INTO = { ahead: 0.88, aside: 0.48 }; // shares of the line of sight across the groups and from the side
const INTO_SPAN = 2.1; // what is seen of the rope, in half lengths of the opened place
const BEFORE = 0.85; // share of the opened length over which the nearer group is seen through
const ASIDE = 1.5; // diameters from the line of sight within which other rope before the hole is seen through

/**
 * The letters of the holes that the pictures shown have open.
 * @param {App} app
 */
function openHoles({ pictures }) {
  return [...new Set(pictures.flatMap(({ holes }) => (holes || []).map(({ letter }) => letter)))];
}

/**
 * The hole of a picture that is looked into; none where nothing is, or where it isn't open there.
 * @param {App} app
 * @param {Picture} picture
 * @returns {HoleRecord | null}
 */
const holeIn = ({ into }, { holes }) => (into && holes && holes.find(({ letter }) => letter === into)) || null;

/**
 * A hole's axes on the side that the picture's own view sees: toward its nearer group, and out at its nearer face.
 * @param {Picture} picture
 * @param {HoleRecord} hole
 */
function nearSide(picture, { up, left }) {
  const [, , toward] = picture.views[0].axes;
  const side = (/** @type {Vector} */ axis) => times(axis, dot(axis, toward) < 0 ? -1 : 1);
  return { ahead: side(up), aside: side(left), onTop: dot(up, toward) >= 0 };
}

/**
 * The camera that looks into a hole in a box of pixels, the uppermost `top` of them left free.
 * @param {Picture} picture
 * @param {HoleRecord} hole
 * @param {number} width
 * @param {number} height
 * @param {number} top
 * @returns {Camera}
 */
function intoCamera(picture, hole, width, height, top) {
  const { ahead, aside } = nearSide(picture, hole);
  const direction = unit(add(times(ahead, INTO.ahead), times(aside, INTO.aside)));
  const [right, up] = picture.views[0].axes;
  const upward = Math.abs(dot(up, direction)) < 0.9 ? up : cross(direction, right);
  const axes = axesOf(direction, upward);
  const scale = Math.min(width, height - top) / (INTO_SPAN * hole.half);
  const centre = add(hole.at, times(axes.up, top / (2 * scale)));
  return sized({ ...axes, centre, scale }, width, height);
}

/**
 * Uniforms that tell what lies before the hole that is looked into; null where none is.
 * @param {App} app
 * @param {Picture} picture
 * @returns {Uniforms | null}
 */
export function beforeHole(app, picture) {
  const hole = holeIn(app, picture);
  if (!hole) return null;
  const { ahead, onTop } = nearSide(picture, hole);
  return {
    beforeAt: [hole.station, BEFORE * hole.half],
    beforeStrands: bits(onTop ? hole.top : hole.strands & ~hole.top),
    beforePlane: [...ahead, hole.high],
    beforeAxis: [...hole.at, ASIDE * app.data.diameter],
  };
}

/**
 * Looks into the next open hole; after the last one, out again.
 * @param {App} app
 */
export function lookInto(app) {
  const letters = openHoles(app);
  const next = letters[letters.indexOf(app.into || "") + 1] || null;
  if (!next) {
    goHome(app);
    return;
  }
  app.into = next;
  app.pictures.forEach((picture, i) => {
    const hole = holeIn(app, picture);
    if (!hole) return;
    const [, , width, height] = app.boxes[i];
    const top = app.pictures.length === 1 ? app.strip : 0;
    app.cameras[i] = { ...intoCamera(picture, hole, width, height, top), picture, moved: true };
  });
  showInto(app);
  redraw(app);
}

/**
 * Says what the button does next: into a hole, into the next one, out again.
 * @param {App} app
 */
export function showInto(app) {
  const letters = openHoles(app);
  const next = letters[letters.indexOf(app.into || "") + 1];
  const button = byId("into");
  button.hidden = letters.length === 0;
  button.textContent = next ? `Into\u00a0${next}` : "Out";
  button.setAttribute("aria-pressed", String(app.into !== null));
  button.title = next ? `Look into ${next}; the strands before it are seen through` : "Back to the first view";
  document.body.classList.toggle("holed", letters.length > 0);
}
