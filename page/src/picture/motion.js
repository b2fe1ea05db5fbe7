// The way from the state before to a step's own, under a finger.

import { dropRope, ropeOnCard } from "../card/ropes.js";
import { byId, control, element } from "../dom.js";
import { morphOf, morphed } from "../geometry/morph.js";
import { atMoment, stretchAt } from "../geometry/way.js";
import { keyOf, want } from "../store.js";
import { say } from "../words/entries.js";
import { redraw } from "./draw.js";

/** @import { App, PaintRecord, Picture, Rope, Turned } from "../types" */

const ON_THE_WAY = "On the way: drawn between settled shapes, not settled itself.";
const A_MOMENT = "On the way: this moment is settled strand by strand.";

/**
 * The settled states that a picture's motion goes through, its own last; none where it has no motion.
 * @param {App} app
 * @returns {Turned[]}
 */
function wayOf({ pictures: [{ ghost, state, views }, second] }) {
  return second || !ghost || !views ? [] : [ghost, ...ghost.between, { state, turn: 0 }];
}

/**
 * The stretch of its way that a picture's rope is on, and how far it is there; null where a state of it isn't made.
 * @param {App} app
 */
function stretchOf(app) {
  const way = wayOf(app);
  if (way.length < 2) return null;
  const { at, share } = stretchAt(app.motion, way.length);
  const [a, b] = way.slice(at, at + 2).map(({ state }) => app.store.kept.get(keyOf(state, "coarse")));
  return a && b ? { a: a.rope, b: b.rope, turns: way.slice(at, at + 2).map(({ turn }) => turn), share } : null;
}

/**
 * The rope on its way, on the card; null where the picture isn't in motion.
 * @param {App} app
 * @param {Picture} picture
 * @returns {Rope | null}
 */
export function ropeInMotion(app, picture) {
  const found = app.motion < 1 && app.pictures[0] === picture ? stretchOf(app) : null;
  if (!found) return null;
  const moving = movingOf(app, found.a, found.b, found.turns);
  if (moving.share !== found.share) {
    const { rope } = moving;
    morphed(moving.morph, found.share, rope.vertices, rope.axis);
    const { gl } = app.painter;
    gl.bindBuffer(gl.ARRAY_BUFFER, rope.buffer);
    gl.bufferSubData(gl.ARRAY_BUFFER, 0, rope.vertices);
    moving.share = found.share;
  }
  return moving.rope;
}

/**
 * What moves between two ropes: made once, and kept until others move.
 * @param {App} app
 * @param {Rope} a
 * @param {Rope} b
 * @param {number[]} turns of their tables
 */
function movingOf(app, a, b, turns) {
  const had = app.moving;
  if (had && had.a === a && had.b === b) return had;
  forgetMotion(app);
  const vertices = a.vertices.slice(0);
  const radius = Float32Array.from(a.radius, (wide, i) => Math.max(wide, b.radius[Math.min(i, b.n - 1)]));
  const rope = ropeOnCard(app.painter.gl, { ...a, vertices, axis: a.axis.slice(), radius });
  app.moving = { a, b, morph: morphOf(a, b, turns[0], turns[1]), rope, share: -1 };
  return app.moving;
}

/** @param {App} app */
export function forgetMotion(app) {
  if (app.moving) dropRope(app.painter.gl, app.moving.rope);
  app.moving = null;
}

/**
 * A picture's paint on its way: marks and dots have their places in settled states alone.
 * @param {PaintRecord} paint
 * @returns {PaintRecord}
 */
export const paintInMotion = (paint) => ({ ...paint, inked: [], dots: [] });

/**
 * Shows the handle where there is a way to be shown, at its end.
 * @param {App} app
 */
export function showMotion(app) {
  app.motion = 1;
  const states = wayOf(app).length;
  byId("motion").hidden = states < 2 || app.practice.on;
  control("way").value = "1";
  const moments = Array.from({ length: Math.max(states - 2, 0) }, (_, i) => (i + 1) / (states - 1));
  byId("moments").replaceChildren(...moments.map((at) => element("option", { value: String(at) })));
}

/**
 * What the rope is on its way: settled at a moment, drawn between two elsewhere.
 * @param {number} motion
 * @param {number} states
 */
function wordsAt(motion, states) {
  const { at, share } = stretchAt(motion, states);
  return at > 0 && share < 1e-9 ? A_MOMENT : ON_THE_WAY;
}

/** @param {App} app */
export function makeMotion(app) {
  const way = control("way");
  way.addEventListener("input", () => {
    const states = wayOf(app);
    for (const { state } of states) want(app.store, state, false, true);
    app.motion = atMoment(Number(way.value), states.length);
    way.setAttribute("aria-valuetext", app.motion < 1 ? `${Math.round(100 * app.motion)} % of the way` : "this step");
    say(app, app.motion < 1 ? wordsAt(app.motion, states.length) : "");
    redraw(app);
  });
}
