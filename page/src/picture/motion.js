// The way from the state before to a step's own, under a finger.

import { dropRope, ropeOnCard } from "../card/ropes.js";
import { byId, control } from "../dom.js";
import { morphOf, morphed } from "../geometry/morph.js";
import { keyOf, want } from "../store.js";
import { say } from "../words/entries.js";
import { redraw } from "./draw.js";

/** @import { App, PaintRecord, Picture, Rope } from "../types" */

const ON_THE_WAY = "On the way from the step before: drawn between two settled shapes, and not settled itself.";

/**
 * The picture whose motion can be shown: a single one, with the state before it lying under it, both made.
 * @param {App} app
 */
function movable(app) {
  const [picture] = app.pictures;
  const { store } = app;
  if (app.pictures.length > 1 || !picture.ghost) return null;
  const [a, b] = [picture.ghost.state, picture.state].map((kind) => store.kept.get(keyOf(kind, "coarse")));
  return a && b ? { picture, a: a.rope, b: b.rope, turn: picture.ghost.turn } : null;
}

/**
 * The rope on its way, on the card; null where the picture isn't in motion.
 * @param {App} app
 * @param {Picture} picture
 * @returns {Rope | null}
 */
export function ropeInMotion(app, picture) {
  const found = app.motion < 1 ? movable(app) : null;
  if (!found || found.picture !== picture) return null;
  const moving = movingOf(app, found.a, found.b, found.turn);
  if (moving.share !== app.motion) {
    const { rope } = moving;
    morphed(moving.morph, app.motion, rope.vertices, rope.axis);
    const { gl } = app.painter;
    gl.bindBuffer(gl.ARRAY_BUFFER, rope.buffer);
    gl.bufferSubData(gl.ARRAY_BUFFER, 0, rope.vertices);
    moving.share = app.motion;
  }
  return moving.rope;
}

/**
 * What moves between two ropes: made once, and kept until others move.
 * @param {App} app
 * @param {Rope} a
 * @param {Rope} b
 * @param {number} turn
 */
function movingOf(app, a, b, turn) {
  const had = app.moving;
  if (had && had.a === a && had.b === b) return had;
  forgetMotion(app);
  const vertices = a.vertices.slice(0);
  const radius = Float32Array.from(a.radius, (wide, i) => Math.max(wide, b.radius[Math.min(i, b.n - 1)]));
  const rope = ropeOnCard(app.painter.gl, { ...a, vertices, axis: a.axis.slice(), radius });
  app.moving = { a, b, morph: morphOf(a, b, turn), rope, share: -1 };
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
  const [{ ghost, views }] = app.pictures;
  byId("motion").hidden = app.pictures.length > 1 || !ghost || !views || app.practice.on;
  control("way").value = "1";
}

/** @param {App} app */
export function makeMotion(app) {
  const way = control("way");
  way.addEventListener("input", () => {
    const { ghost, state } = app.pictures[0];
    for (const kind of ghost ? [state, ghost.state] : []) want(app.store, kind, false, true);
    app.motion = Number(way.value);
    way.setAttribute("aria-valuetext", app.motion < 1 ? `${Math.round(100 * app.motion)} % of the way` : "this step");
    say(app, app.motion < 1 ? ON_THE_WAY : "");
    redraw(app);
  });
}
