// From a picture and what a person has chosen to panels: what of the rope is drawn, seen through or left out; the cut.

import { bits, list, whole } from "../card/gpu.js";
import { columnsOf } from "../card/ropes.js";
import { share } from "../dom.js";
import { STANDARD, axesOf, fittedCamera, sized } from "../geometry/camera.js";
import { add, cross, dot, minus, times, turnedUp, unit } from "../geometry/vectors.js";
import { bodiesIn, formerRope, ropeIn } from "../store.js";
import { beforeHole } from "./into.js";
import { paintInMotion, ropeInMotion } from "./motion.js";

/**
 * @import {
 *   App, Body, Camera, Choices, Colour, Cut, CutPlane, Layer, PaintRecord, Palette, Panel, Picture, Rect, Rope,
 *   Run, ShownBody, Spot, StateRecord, Uniforms, Vector, ViewRecord,
 * } from "../types"
 */

export const SHOWN = "shown";
export const CLEAR = "seen through";
export const HIDDEN = "left out";

export const [STANDING_PART, ARROW] = ["standing-part", "arrow"]; // parts that are treated differently, by their keys

/**
 * What of a picture is shown, as a page opens.
 * @returns {Choices}
 */
export function openingChoices() {
  return {
    parts: {},
    bodies: { terminator: true, tools: true, arrow: true },
    marks: true,
    words: true,
    numbers: true,
    ghost: true,
    cut: { way: "off", place: 0.5, only: "all" },
  };
}

const FAR = 1e9;

const NO_MARK = { station: -FAR, place: [FAR, FAR, FAR], across: [0, 0, 0] };

/**
 * Uniforms that colour a rope, from a picture's paint.
 * @param {PaintRecord} paint
 * @param {Palette} palette
 * @returns {Uniforms}
 */
function paintOf(paint, palette) {
  const pairs = [...paint.pairs];
  while (pairs.length < 4) pairs.push(pairs[pairs.length - 1]);
  const starts = [...paint.starts, FAR, FAR, FAR].slice(0, 3);
  const toned = [0, 1].map((i) => paint.toned[i] || { host: -FAR, half: 1, shown: [1, 1], top: 0, followed: 0 });
  const inked = [...paint.inked, ...Array(12).fill(NO_MARK)].slice(0, 12);
  return {
    pairs: list(3, pairs.flat().map(share)),
    starts,
    blend: paint.blend,
    groups: list(3, palette.groups.map(share)),
    toned: list(3, toned.map(({ host, shown }) => [host, ...shown])),
    tops: bits(toned[0].top, toned[1].top),
    followed: bits(toned[0].followed, toned[1].followed),
    fade: paint.fade,
    inked: list(1, inked.map(({ station }) => station)),
    inkPlaces: list(3, inked.map(({ place }) => place)),
    inkAcross: list(3, inked.map(({ across }) => across)),
    marks: whole(Math.min(paint.inked.length, 12)),
    inkHalf: paint.inkHalf,
    ink: share(palette.ink),
    dots: list(3, [...paint.dots, [FAR, FAR, FAR], [FAR, FAR, FAR]].slice(0, 2)),
    dotted: whole(Math.min(paint.dots.length, 2)),
    dotRadius: paint.dotRadius,
    dotColours: list(3, palette.dot.map(share)),
  };
}

/**
 * Stretches of stations of a picture's parts: `[[part, from, to], ...]`.
 * @param {PaintRecord} paint
 * @returns {[string, number, number][]}
 */
function stretchesOf({ parts, starts }) {
  return parts.map((part, i) => [part, i === 0 ? -FAR : starts[i - 1], i < starts.length ? starts[i] : FAR]);
}

/**
 * Columns of a rope that are drawn in one of the ways, and whether its two ends are.
 * @param {Rope} rope
 * @param {PaintRecord} paint
 * @param {Record<string, string>} chosenWays
 * @param {string} way
 * @returns {Layer}
 */
export function layerOf(rope, paint, chosenWays, way) {
  const stretches = stretchesOf(paint);
  const chosen = stretches.filter(([part]) => (chosenWays[part] || SHOWN) === way);
  /** @type {Run[]} */
  const joined = [];
  for (const [, from, to] of chosen) {
    const before = joined[joined.length - 1];
    if (before && before[1] === from) before[1] = to;
    else joined.push([from, to]);
  }
  const has = (/** @type {typeof stretches[number]} */ stretch) => chosen.includes(stretch);
  return {
    runs: columnsOf(rope, joined),
    startEnd: has(stretches[0]),
    farEnd: has(stretches[stretches.length - 1]),
    whole: chosen.length === stretches.length,
  };
}

/**
 * Where a rope is cut, and which way it runs there.
 * @param {Cut} cut
 * @param {Rope} rope
 * @returns {{ centre: Vector, along: Vector }}
 */
export function cutPlaceOf({ place }, rope) {
  const column = Math.round(place * (rope.n - 1));
  const at = (/** @type {number} */ i) =>
    /** @type {Vector} */ ([rope.axis[3 * i], rope.axis[3 * i + 1], rope.axis[3 * i + 2]]);
  const along = unit(minus(at(Math.min(column + 4, rope.n - 1)), at(Math.max(column - 4, 0))));
  return { centre: at(column), along };
}

/**
 * The cutting plane: what lies beyond it toward the viewer is taken off; null where nothing is cut.
 * @param {Cut} cut
 * @param {Rope} rope
 * @param {Camera} camera
 * @param {number} diameter
 * @returns {CutPlane | null}
 */
export function cutOf(cut, rope, camera, diameter) {
  if (cut.way === "off") return null;
  const { centre, along } = cutPlaceOf(cut, rope);
  const level = cut.way === "flat";
  /** @type {Record<string, Vector>} */
  const normals = { across: along, flat: [0, 0, 1], upright: unit(cross([0, 0, 1], along)) };
  const normal = normals[cut.way];
  const offset = level ? (cut.place - 0.5) * 2.2 * diameter : dot(normal, centre);
  const way = dot(normal, camera.toward) < 0 ? -1 : 1;
  return { normal: times(normal, way), offset: offset * way, mask: cut.only === "all" ? 15 : 1 };
}

/**
 * A panel ready to be drawn: `rect` in pixels of the canvas.
 * @param {App} app
 * @param {Picture} picture
 * @param {Rect} rect
 * @param {Camera} camera
 * @param {boolean} fine
 * @returns {Panel | null}
 */
export function panelOf(app, picture, rect, camera, fine) {
  const { data, store, choices } = app;
  const moving = ropeInMotion(app, picture);
  const made = moving || ropeIn(store, picture.state, fine);
  const rope = made || formerRope(store, picture.state);
  if (!rope) return null;
  const record = data.states[picture.state];
  const cut = cutOf(choices.cut, rope, camera, data.diameter);
  const solid = layerOf(rope, picture.paint, choices.parts, SHOWN);
  const clear = layerOf(rope, picture.paint, choices.parts, CLEAR);
  const bodies = moving ? [] : shownBodies(app, picture, record);
  const depths = depthsOf(rope, camera, bodies);
  const paint = paintOf(moving ? paintInMotion(picture.paint) : picture.paint, data.palette);
  const before = beforeHole(app, picture);
  const [thick, ink] = [record.thickness, share(data.palette.line)];
  /** @type {Spot} */
  const size = [camera.width, camera.height];
  return { rect, size, camera, rope, cut, solid, clear, bodies, depths, paint, before, thick, ink, former: !made };
}

/**
 * A picture's hard bodies that are shown, with where they stand.
 * @param {App} app
 * @param {Picture} picture
 * @param {StateRecord} record
 * @returns {ShownBody[]}
 */
function shownBodies({ data, store, choices, view }, picture, { seat }) {
  /** @type {ShownBody[]} */
  const found = [];
  const cut = choices.cut.only === "all";
  const put = (/** @type {Body} */ body, /** @type {Vector} */ offset) =>
    found.push({ ...body, offset, cut, colour: /** @type {Colour} */ (share(colourOf(body))) });
  if (seat && choices.bodies.terminator) bodiesIn(store, data.terminator).forEach((body) => put(body, seat.centre));
  for (const body of bodiesIn(store, picture.bodies)) {
    const own = picture.views[view] || picture.views[0];
    const shown = body.part === ARROW ? choices.bodies.arrow && own.arrow : choices.bodies.tools;
    if (shown) put(body, [0, 0, 0]);
  }
  return found;
}

/** @type {Colour} */
const PALE_ARROW = [222, 225, 230];

/**
 * A body's colour; the arrow is dark on light paper and pale on dark.
 * @param {Body} body
 */
function colourOf({ part, colour }) {
  return part === ARROW && document.documentElement.dataset.light === "dark" ? PALE_ARROW : colour;
}

/**
 * Least and greatest depth toward the viewer, from the camera's middle, that anything drawn has, mm.
 * @param {Rope} rope
 * @param {Camera} camera
 * @param {ShownBody[]} bodies
 * @returns {Run}
 */
function depthsOf({ axis, radius }, { toward, centre }, bodies) {
  const middle = dot(toward, centre);
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < radius.length; i += 2) {
    const at = dot(toward, [axis[3 * i], axis[3 * i + 1], axis[3 * i + 2]]) - middle;
    low = Math.min(low, at - 1.5 * radius[i]);
    high = Math.max(high, at + 1.5 * radius[i]);
  }
  for (const { shape, offset } of bodies) {
    const base = dot(toward, offset) - middle;
    for (let i = 0; i < shape.points.length; i += 3) {
      const at = base + toward[0] * shape.points[i] + toward[1] * shape.points[i + 1] + toward[2] * shape.points[i + 2];
      low = Math.min(low, at);
      high = Math.max(high, at);
    }
  }
  return [low - 1, high + 1];
}

/**
 * The eight corners of what a view must hold, mm.
 * @param {ViewRecord} view
 * @returns {Vector[]}
 */
function cornersOf({ axes, low, high }) {
  const corners = [];
  for (const x of [low[0], high[0]]) {
    for (const y of [low[1], high[1]]) {
      const level = add(times(axes[0], x), times(axes[1], y));
      for (const z of [low[2], high[2]]) corners.push(add(level, times(axes[2], z)));
    }
  }
  return corners;
}

/**
 * The camera a picture is first seen by in a box of so many pixels, the uppermost `top` of them left free.
 * @param {Picture} picture
 * @param {number} number
 * @param {number} width
 * @param {number} height
 * @param {number} diameter
 * @param {number} top
 * @returns {Camera}
 */
export function homeCamera(picture, number, width, height, diameter, top) {
  const view = picture.views[number] || picture.views[0];
  const [right, up, toward] = view.axes;
  const camera = fittedCamera(cornersOf(view), { right, up, toward }, width, height - top, 5 * diameter);
  const centre = add(camera.centre, times(up, top / (2 * camera.scale)));
  return sized({ ...camera, centre }, width, height);
}

/**
 * A standard view of the same places; the model's east is where its standing part heads.
 * @param {Picture} picture
 * @param {string} name
 * @param {number} width
 * @param {number} height
 * @param {number} diameter
 * @returns {Camera}
 */
export function standardCamera(picture, name, width, height, diameter) {
  const [direction, upward] = STANDARD[name];
  const axes = axesOf(turnedUp(direction, picture.heading), turnedUp(upward, picture.heading));
  return fittedCamera(cornersOf(picture.views[0]), axes, width, height, 5 * diameter);
}
