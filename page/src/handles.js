// What tests and an outer page may ask of an open page: `window.fidpathPage`.

import { strandsOf } from "./geometry/decode.js";
import { sectionsOf } from "./geometry/sections.js";
import { measures } from "./picture/measure.js";
import { goToKey } from "./start.js";
import { ropeIn } from "./store.js";

/** @import { App } from "./types" */

/**
 * @param {App} app
 * @returns {Record<string, (...values: any[]) => unknown>}
 */
export function handlesOf(app) {
  const promised = (/** @type {App["waiting"]} */ list) => () => new Promise((resolve) => list.push(resolve));
  return {
    entries: () => [...app.all.steps, ...app.all.wrong].map(({ key }) => key),
    shown: () => ({ key: app.entry.key, at: app.at, drawn: app.pictures.map(({ state }) => isMade(app, state)) }),
    go: (key) => goToKey(app, key),
    idle: () => isIdle(app),
    boxes: () => app.boxes,
    fine: () => app.fine,
    camera: (i = 0) => app.cameras[i],
    measured: () => (app.measured.points.length === 2 ? measures(app.measured.points) : null),
    timing: () => ({ first: app.firstTook, slow: app.slow, maker: app.store.maker.kind }),
    moving: () => (app.moving && app.motion < 1 ? Array.from(app.moving.rope.axis) : null),
    drawn: promised(app.waiting),
    still: promised(app.resting),
    sections: (kind, rays, refine) => sectionsNow(app, kind, rays, refine),
  };
}

/**
 * @param {App} app
 * @param {string} state
 */
const isMade = (app, state) => ropeIn(app.store, state, false) !== null;

/**
 * Whether the fine picture is drawn and nothing more is being made.
 * @param {App} app
 */
function isIdle(app) {
  const { making, queue } = app.store;
  return ["smoothing", "done"].includes(app.phase.name) && !making && queue.length === 0;
}

/**
 * A state's sections as they are drawn, made anew.
 * @param {App} app
 * @param {string} kind
 * @param {number} rays
 * @param {number} refine
 */
async function sectionsNow({ data }, kind, rays, refine) {
  const record = data.states[kind];
  return sectionsOf(await strandsOf(record, record.text), rays, refine, data.law);
}
