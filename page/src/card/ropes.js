// The rope's tubes on the graphics card: what of them is in sight, how finely, and their flat ends.

import { VERTEX, capIndex, ringIndex } from "../geometry/tubes.js";
import { clamp, dot, minus } from "../geometry/vectors.js";
import { bufferOf } from "./gpu.js";

/** @import { Camera, GL, Layer, Painter, Rope, Run, Tubes } from "../types" */

const MOST_RINGS = 1024;
const CHUNK = 32; // columns that are looked at together when what lies out of sight is left out

/**
 * Tubes put on the card.
 * @param {GL} gl
 * @param {Tubes} tubes
 * @returns {Rope}
 */
export function ropeOnCard(gl, tubes) {
  return { ...tubes, buffer: bufferOf(gl, gl.ARRAY_BUFFER, tubes.vertices), array: gl.createVertexArray() };
}

/**
 * @param {GL} gl
 * @param {Rope} rope
 */
export function dropRope(gl, rope) {
  gl.deleteBuffer(rope.buffer);
  gl.deleteVertexArray(rope.array);
}

/**
 * Columns nearest to stretches of stations `[[from, to], ...]` of a rope, as `[[first, last], ...]`.
 * @param {Rope} rope
 * @param {Run[]} stretches
 * @returns {Run[]}
 */
export function columnsOf(rope, stretches) {
  const last = rope.n - 1;
  const step = rope.station[1] - rope.station[0];
  const column = (/** @type {number} */ station) => clamp(Math.round((station - rope.station[0]) / step), 0, last);
  const runs = stretches.map(([from, to]) => /** @type {Run} */ ([column(from), column(to)]));
  return runs.filter(([a, b]) => b > a);
}

/**
 * The parts of column runs that a camera sees, to whole chunks.
 * @param {Rope} rope
 * @param {Camera} camera
 * @param {Run[]} runs
 * @returns {Run[]}
 */
function inSight(rope, camera, runs) {
  /** @type {Run[]} */
  const seen = [];
  for (const [first, last] of runs) {
    for (let from = first; from < last; ) {
      const to = Math.min(from - (from % CHUNK) + CHUNK, last);
      const before = seen[seen.length - 1];
      if (chunkSeen(rope, camera, from, to)) {
        if (before && before[1] === from) before[1] = to;
        else seen.push([from, to]);
      }
      from = to;
    }
  }
  return seen;
}

/**
 * @param {Rope} rope
 * @param {Camera} camera
 * @param {number} from
 * @param {number} to
 */
function chunkSeen({ axis, radius }, camera, from, to) {
  for (let i = from; i <= to; i += 4) {
    const away = minus([axis[3 * i], axis[3 * i + 1], axis[3 * i + 2]], camera.centre);
    const room = radius[i] * 2.5;
    const [x, y] = [Math.abs(dot(away, camera.right)), Math.abs(dot(away, camera.up))];
    if (x < camera.halfWidth + room && y < camera.halfHeight + room) return true;
  }
  return false;
}

/**
 * Every how many rings and rays are drawn, for strands so many pixels wide; no fewer than six rays while moving.
 * @param {Rope} rope
 * @param {number} wide
 * @param {boolean} coarse
 */
export function skipOf(rope, wide, coarse) {
  if (rope.rays < 24) return coarse && wide < 6 ? 2 : 1;
  if (!coarse) return wide < 10 ? 2 : 1;
  return wide < 6 ? 4 : wide < 60 ? 2 : 1;
}

/**
 * Draws runs of a rope's columns; their program is in use.
 * @param {Painter} p
 * @param {Rope} rope
 * @param {Layer} layer
 * @param {Camera} camera
 * @param {number} skip
 */
export function drawRope(p, rope, { runs, startEnd, farEnd }, camera, skip) {
  const { gl } = p;
  gl.bindVertexArray(rope.array);
  gl.bindBuffer(gl.ARRAY_BUFFER, rope.buffer);
  for (const place of [0, 1, 2, 3]) gl.enableVertexAttribArray(place);
  for (const [from, to] of inSight(rope, camera, runs)) {
    for (let k = 0; k < rope.strands; k++) drawTube(p, rope, k, from, Math.min(to, rope.count[k] - 1), skip);
  }
  const sides = rope.strands * rope.n * rope.rays;
  if (startEnd) drawEnds(p, rope, sides, -1);
  if (farEnd) drawEnds(p, rope, sides + rope.strands * (rope.rays + 1), 1);
}

/**
 * One strand's sides from ring `first` to ring `last`.
 * @param {Painter} p
 * @param {Rope} rope
 * @param {number} k
 * @param {number} first
 * @param {number} last
 * @param {number} skip
 */
function drawTube(p, rope, k, first, last, skip) {
  for (let from = first; from < last; from += MOST_RINGS) {
    const to = Math.min(from + MOST_RINGS, last);
    const even = to - ((to - from) % skip);
    drawRings(p, rope, k, from, even, skip, skip);
    drawRings(p, rope, k, even, to, skip, 1);
  }
}

/**
 * @param {Painter} p
 * @param {Rope} rope
 * @param {number} k
 * @param {number} from
 * @param {number} to
 * @param {number} skip
 * @param {number} along
 */
function drawRings(p, rope, k, from, to, skip, along) {
  if (to <= from) return;
  const { gl } = p;
  pointAt(gl, (k * rope.n + from) * rope.rays);
  gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, ringPattern(p, rope.rays, skip, along));
  gl.drawElements(gl.TRIANGLES, ((to - from) / along) * Math.floor(rope.rays / skip) * 6, gl.UNSIGNED_SHORT, 0);
}

/**
 * @param {Painter} p
 * @param {Rope} rope
 * @param {number} vertex
 * @param {number} way
 */
function drawEnds(p, rope, vertex, way) {
  const { gl } = p;
  const key = `caps ${rope.strands} ${rope.rays} ${way}`;
  const index = () => capIndex(rope.strands, rope.rays, way);
  pointAt(gl, vertex);
  gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, pattern(p, key, index));
  gl.drawElements(gl.TRIANGLES, rope.strands * rope.rays * 3, gl.UNSIGNED_SHORT, 0);
}

/**
 * Lets the bound rope's attributes begin at a vertex.
 * @param {GL} gl
 * @param {number} vertex
 */
function pointAt(gl, vertex) {
  const at = vertex * VERTEX;
  gl.vertexAttribPointer(0, 3, gl.FLOAT, false, VERTEX, at);
  gl.vertexAttribPointer(1, 3, gl.BYTE, true, VERTEX, at + 12);
  gl.vertexAttribIPointer(2, 1, gl.UNSIGNED_BYTE, VERTEX, at + 15);
  gl.vertexAttribPointer(3, 1, gl.FLOAT, false, VERTEX, at + 16);
}

/**
 * @param {Painter} p
 * @param {number} rays
 * @param {number} skip
 * @param {number} along
 */
function ringPattern(p, rays, skip, along) {
  return pattern(p, `${rays} ${skip} ${along}`, () => ringIndex(MOST_RINGS + 1, rays, skip, along));
}

/**
 * @param {Painter} p
 * @param {string} key
 * @param {() => Uint16Array<ArrayBuffer>} made
 */
function pattern(p, key, made) {
  const buffer = p.patterns.get(key) || bufferOf(p.gl, p.gl.ELEMENT_ARRAY_BUFFER, made());
  p.patterns.set(key, buffer);
  return buffer;
}
