// Where a line of sight meets one strand of the drawn rope, found on its triangles.

import { add, cross, dot, minus, norm, times } from "../geometry/vectors.js";

/** @import { Hit, Rope, Run, Sight, Vector } from "../types" */

/**
 * The hit of a strand that lies nearest to a depth along a line of sight: {place, station, depth} or null.
 * @param {Rope} rope
 * @param {Sight} line
 * @param {Run[]} runs
 * @param {number} strand
 * @param {number} depth
 * @returns {Hit | null}
 */
export function hitStrand(rope, { from, along }, runs, strand, depth) {
  const floats = new Float32Array(rope.vertices);
  /** @type {Hit} */
  const best = { place: [0, 0, 0], station: 0, depth: 0, off: Infinity };
  for (const [first, last] of runs) {
    for (let i = first; i < Math.min(last, rope.count[strand] - 1); i++) {
      if (nearLine(rope, i, from, along)) hitBand(rope, floats, strand, i, { from, along, depth }, best);
    }
  }
  return best.off < Infinity ? best : null;
}

/**
 * @param {Rope} rope
 * @param {number} i
 * @param {Vector} from
 * @param {Vector} along
 */
function nearLine({ axis, radius }, i, from, along) {
  const away = minus([axis[3 * i], axis[3 * i + 1], axis[3 * i + 2]], from);
  const off = norm(minus(away, times(along, dot(away, along))));
  return off < 2.5 * radius[i];
}

/**
 * @param {Rope} rope
 * @param {Float32Array} floats
 * @param {number} k
 * @param {number} i
 * @param {Sight & { depth: number }} line
 * @param {Hit} best
 */
function hitBand({ n, rays }, floats, k, i, line, best) {
  const row = (k * n + i) * rays;
  for (let ray = 0; ray < rays; ray++) {
    const after = (ray + 1) % rays;
    const corners = [row + ray, row + after, row + rays + after, row + rays + ray];
    for (const [a, b, c] of [
      [0, 1, 2],
      [0, 2, 3],
    ]) {
      hitTriangle(floats, [corners[a], corners[b], corners[c]], line, best);
    }
  }
}

/**
 * @param {Float32Array} floats
 * @param {number[]} corners
 * @param {Sight & { depth: number }} line
 * @param {Hit} best
 */
function hitTriangle(floats, corners, { from, along, depth }, best) {
  const at = (/** @type {number} */ m) => /** @type {Vector} */ ([floats[5 * m], floats[5 * m + 1], floats[5 * m + 2]]);
  const hit = crossing(at(corners[0]), at(corners[1]), at(corners[2]), from, along);
  if (!hit) return;
  const off = Math.abs(hit.depth - depth);
  if (off >= best.off) return;
  const [u, v, w] = corners.map((m) => floats[5 * m + 4]);
  const station = u * (1 - hit.b - hit.c) + v * hit.b + w * hit.c;
  Object.assign(best, { place: add(from, times(along, hit.depth)), station, depth: hit.depth, off });
}

/**
 * Where a line meets a triangle: depth along it and the weights of its second and third corner; null where not.
 * @param {Vector} a
 * @param {Vector} b
 * @param {Vector} c
 * @param {Vector} from
 * @param {Vector} along
 * @returns {{ depth: number, b: number, c: number } | null}
 */
function crossing(a, b, c, from, along) {
  const [u, v] = [minus(b, a), minus(c, a)];
  const across = cross(along, v);
  const size = dot(u, across);
  if (Math.abs(size) < 1e-12) return null;
  const away = minus(from, a);
  const second = dot(away, across) / size;
  const side = cross(away, u);
  const third = dot(along, side) / size;
  if (second < 0 || third < 0 || second + third > 1) return null;
  return { depth: dot(v, side) / size, b: second, c: third };
}
