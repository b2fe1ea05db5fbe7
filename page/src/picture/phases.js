// The states that a picture goes through, from loading to its words, and what is done on the way: a table, and nothing
// that draws. What happens comes in as events; the new state and the deeds that belong to it go out.
//
//   loading    waits for tubes or bodies that are being made
//   drawing    is drawn quickly at the next frame
//   resting    stands as it was drawn quickly; if nothing changes, the fine picture is drawn
//   refining   the fine picture is on its way through the card
//   smoothing  is fine, with its words; on a slow machine its edges are smoothed a little later
//   done       is fine, with its words
//   lost       the graphics card is gone

/** @import { Deed, Happening, Phase } from "../types" */

/** @type {Phase} */
export const OPENING = { name: "loading", turn: 0, rest: 0, fresh: true, ever: false };

/**
 * What a happening leads to. One that doesn't belong to the state, or comes too late, changes nothing.
 * @param {Phase} phase
 * @param {Happening} happening
 * @returns {{ phase: Phase, deeds: Deed[] }}
 */
export function next(phase, happening) {
  if (phase.name === "lost" && happening.is !== "restored") return same(phase);
  switch (happening.is) {
    case "changed":
      return changed(phase, happening.rest);
    case "drawn":
      return phase.name === "drawing" ? drawn(phase, happening.whole) : same(phase);
    case "rested":
      return rested(phase, happening);
    case "written":
      return phase.name === "refining" && happening.turn === phase.turn ? written(phase, happening.later) : same(phase);
    case "renewed":
      return to(phase, { name: "loading", turn: phase.turn + 1, fresh: true }, ["stop"]);
    case "lost":
      return to(phase, { name: "lost" }, ["stop", "bare"]);
    default:
      return phase.name === "lost" ? to(phase, { name: "loading", turn: phase.turn + 1 }, ["refill"]) : same(phase);
  }
}

/**
 * @param {Phase} phase
 * @returns {{ phase: Phase, deeds: Deed[] }}
 */
const same = (phase) => ({ phase, deeds: [] });

/**
 * @param {Phase} phase
 * @param {Partial<Phase>} change
 * @param {Deed[]} deeds
 */
const to = (phase, change, deeds) => ({ phase: { ...phase, ...change }, deeds });

/**
 * Something is to be seen otherwise: it is drawn at the next frame, once, and what was on its way no longer counts.
 * @param {Phase} phase
 * @param {number} rest
 */
function changed(phase, rest) {
  /** @type {Deed[]} */
  const deeds = phase.name === "drawing" ? [] : ["stop", "frame"];
  return to(phase, { name: "drawing", turn: phase.turn + 1, rest }, deeds);
}

/**
 * The quick picture stands: all of it, or what there is until the rest is made.
 * @param {Phase} phase
 * @param {boolean} whole
 */
function drawn(phase, whole) {
  if (!whole) return to(phase, { name: "loading" }, []);
  /** @type {Deed[]} */
  const deeds = phase.fresh ? ["announce", "wait"] : ["wait"];
  return to(phase, { name: "resting", fresh: false, ever: true }, deeds);
}

/**
 * Nothing has changed for a while: the fine picture, unless a finger holds it or something of it is still being made.
 * @param {Phase} phase
 * @param {{ held: boolean, awaited: boolean }} found
 */
function rested(phase, { held, awaited }) {
  if (held) return same(phase);
  if (phase.name === "smoothing") return to(phase, { name: "done" }, ["smooth"]);
  if (phase.name !== "resting") return same(phase);
  return awaited ? to(phase, { name: "loading" }, []) : to(phase, { name: "refining" }, ["fine"]);
}

/**
 * The card has drawn the fine picture and written what is where: words can be set.
 * @param {Phase} phase
 * @param {boolean} later
 */
function written(phase, later) {
  return later ? to(phase, { name: "smoothing" }, ["words", "wait longer"]) : to(phase, { name: "done" }, ["words"]);
}
