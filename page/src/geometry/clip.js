// Rays clipped where another centre line is as near as their own: sections.py's `_clip`, and the cells to find it by.
// The inner loops spell their coordinates out: they run some ten million times a state.

import { distanceAt, medianOf } from "./sections.js";

/** @import { Cells, Free, Law, Near, Numbers, Refined, Run, Search } from "../types" */

const NEGLIGIBLE = 0.6; // a plane this much beyond a ray's free end shortens it by less than 1e-4 of itself
const SEGMENT = 8; // numbers kept of a segment: its start, its run, its length squared, its strand's weight

/**
 * Ray lengths `(strands, n, rays)` mm after clipping at neighbours, none outside two stations.
 * @param {Refined} line
 * @param {Float64Array} tangents
 * @param {Float64Array} across
 * @param {Float64Array} flat
 * @param {Free} free
 * @param {Law} law
 * @param {Run} only
 */
export function clippedRays(line, tangents, across, flat, free, law, [from, to]) {
  const { strands, n, count, thickness, station } = line;
  const rays = free.cos.length;
  const weight = thickness.map((t) => (t * t) / 4);
  const heaviest = weight.reduce((a, b) => Math.max(a, b), 0);
  const thickest = thickness.reduce((a, b) => Math.max(a, b), 0);
  const slack = Math.ceil((law.selfReach * thickest) / leastStep(line));
  const near = { found: new Float64Array(3 * 4096), number: 0 };
  const search = { ...line, ...cellsOf(line, weight, 2 * free.widest), weight, slack, near };
  const [radii, most] = [new Float32Array(strands * n * rays), new Float64Array(rays)];
  for (let k = 0; k < strands; k++) {
    for (let i = 0; i < count[k]; i++) {
      if (station[i] < from || station[i] > to) continue;
      const size = longestOf(free.longest, i * rays, rays);
      const reach = law.beyond * (size + Math.sqrt(size * size + heaviest - weight[i]));
      findNear(search, k, i, reach);
      addOwnPlanes(line, tangents, k, i, near);
      mostOf(near, across, flat, 3 * (k * n + i), free, NEGLIGIBLE / size, most);
      for (let ray = 0; ray < rays; ray++) {
        radii[(k * n + i) * rays + ray] = joined(free.longest[i * rays + ray], most[ray], law.rounding);
      }
    }
  }
  return radii;
}

/**
 * @param {Float64Array} values
 * @param {number} from
 * @param {number} number
 */
function longestOf(values, from, number) {
  let most = 0;
  for (let i = from; i < from + number; i++) if (values[i] > most) most = values[i];
  return most;
}

/**
 * Free and clipped radius joined without a knife edge.
 * @param {number} long
 * @param {number} most
 * @param {number} rounding
 */
function joined(long, most, rounding) {
  const ratio = long * most;
  return ratio < NEGLIGIBLE ? long : long / (1 + ratio ** rounding) ** (1 / rounding);
}

/**
 * Inverse length that the found planes leave each ray, `(rays,)`; ray and ray + half point opposite ways.
 * @param {Near} near
 * @param {Float64Array} across
 * @param {Float64Array} flat
 * @param {number} at
 * @param {Free} free
 * @param {number} least
 * @param {Float64Array} most
 */
function mostOf(near, across, flat, at, free, least, most) {
  const { found, number } = near;
  const { cos, sin } = free;
  const half = cos.length / 2;
  const ax = across[at];
  const ay = across[at + 1];
  const az = across[at + 2];
  const fx = flat[at];
  const fy = flat[at + 1];
  const fz = flat[at + 2];
  most.fill(0);
  for (let m = 0; m < 3 * number; m += 3) {
    const a = found[m] * ax + found[m + 1] * ay + found[m + 2] * az;
    const f = found[m] * fx + found[m + 1] * fy + found[m + 2] * fz;
    if (a * a + f * f < least * least) continue;
    for (let ray = 0; ray < half; ray++) {
      const ahead = cos[ray] * a + sin[ray] * f;
      if (ahead > most[ray]) most[ray] = ahead;
      else if (-ahead > most[ray + half]) most[ray + half] = -ahead;
    }
  }
}

/**
 * The planes midway to the strand's own sections before and after.
 * @param {Refined} refined
 * @param {Float64Array} tangents
 * @param {number} k
 * @param {number} i
 * @param {Near} near
 */
function addOwnPlanes({ n, centres, count }, tangents, k, i, near) {
  const at = 3 * (k * n + i);
  for (let j = i - 1; j <= i + 1; j += 2) {
    if (j < 0 || j >= count[k]) continue;
    const to = 3 * (k * n + j);
    const x = tangents[at] + tangents[to];
    const y = tangents[at + 1] + tangents[to + 1];
    const z = tangents[at + 2] + tangents[to + 2];
    const dx = centres[to] - centres[at];
    const ahead = (x * dx + y * (centres[to + 1] - centres[at + 1]) + z * (centres[to + 2] - centres[at + 2])) / 2;
    push(near, x / ahead, y / ahead, z / ahead);
  }
}

/**
 * @param {Near} near
 * @param {number} x
 * @param {number} y
 * @param {number} z
 */
function push(near, x, y, z) {
  const at = 3 * near.number;
  near.found[at] = x;
  near.found[at + 1] = y;
  near.found[at + 2] = z;
  near.number += 1;
}

/**
 * Planes of all segments near section i of strand k, as points 2 (q - c)/power, into `near`.
 * @param {Search} search
 * @param {number} k
 * @param {number} i
 * @param {number} reach
 */
function findNear(search, k, i, reach) {
  const { n, centres, low, cell, shape, starts, near } = search;
  const at = 3 * (k * n + i);
  const px = Math.trunc((centres[at] - low[0]) / cell);
  const py = Math.trunc((centres[at + 1] - low[1]) / cell);
  const pz = Math.trunc((centres[at + 2] - low[2]) / cell);
  const first = Math.max(pz - 1, 0);
  const last = Math.min(pz + 2, shape[2]);
  near.number = 0;
  for (let x = Math.max(px - 1, 0); x < Math.min(px + 2, shape[0]); x++) {
    for (let y = Math.max(py - 1, 0); y < Math.min(py + 2, shape[1]); y++) {
      const row = (x * shape[1] + y) * shape[2];
      findIn(search, starts[row + first], starts[row + last], k, i, reach);
    }
  }
}

/**
 * The same for the segments of a run of cells. A segment's end is its follower's start, and left to that one.
 * @param {Search} search
 * @param {number} first
 * @param {number} last
 * @param {number} k
 * @param {number} i
 * @param {number} reach
 */
function findIn(search, first, last, k, i, reach) {
  const { n, centres, weight, slack, near, segments, order, count } = search;
  const x = centres[3 * (k * n + i)];
  const y = centres[3 * (k * n + i) + 1];
  const z = centres[3 * (k * n + i) + 2];
  for (let m = first; m < last; m++) {
    const s = SEGMENT * m;
    const ax = segments[s] - x;
    const ay = segments[s + 1] - y;
    const az = segments[s + 2] - z;
    const length = segments[s + 6];
    const far = reach + Math.sqrt(length);
    if (ax * ax + ay * ay + az * az > far * far) continue;
    const other = Math.floor(order[m] / n);
    const j = order[m] - other * n;
    if (other === k && Math.abs(j - i) < slack) continue;
    const lead = weight[i] - segments[s + 7];
    const dx = segments[s + 3];
    const dy = segments[s + 4];
    const dz = segments[s + 5];
    const nearest = -(ax * dx + ay * dy + az * dz) / Math.max(length, 1e-12);
    addPlane(ax, ay, az, lead, reach, near);
    addPlane(ax + dx / 2, ay + dy / 2, az + dz / 2, lead, reach, near);
    if (nearest >= 0 && nearest <= 1) {
      addPlane(ax + nearest * dx, ay + nearest * dy, az + nearest * dz, lead, reach, near);
    }
    const alone = j + 2 >= count[other] || (other === k && Math.abs(j + 1 - i) < slack);
    if (alone) addPlane(ax + dx, ay + dy, az + dz, lead, reach, near);
  }
}

/**
 * @param {number} x
 * @param {number} y
 * @param {number} z
 * @param {number} lead
 * @param {number} reach
 * @param {Near} near
 */
function addPlane(x, y, z, lead, reach, near) {
  const square = x * x + y * y + z * z;
  if (square >= reach * reach || near.number >= 4090) return;
  const scale = 2 / Math.max(square + lead, 0.1 * square, 1e-9);
  push(near, x * scale, y * scale, z * scale);
}

/**
 * The usual length of a step of the live centre lines, mm.
 * @param {Refined} refined
 */
function leastStep({ strands, n, centres, count }) {
  const steps = new Float64Array(count.reduce((sum, c) => sum + c - 1, 0));
  let at = 0;
  for (let k = 0; k < strands; k++) {
    for (let i = k * n; i < k * n + count[k] - 1; i++) steps[at++] = distanceAt(centres, 3 * i, centres, 3 * i + 3);
  }
  return medianOf(steps);
}

/**
 * Cells to find segments in by their middles: lowest corner, width, number each way, starts, segments in order.
 * @param {Refined} line
 * @param {Float64Array} weight
 * @param {number} reach
 * @returns {Cells}
 */
function cellsOf(line, weight, reach) {
  const { middles, names } = middlesOf(line);
  const [low, high] = boundsOf(middles);
  const room = [0, 1, 2].reduce((product, c) => product * (high[c] - low[c] + reach), 1);
  const cell = Math.max(reach * 1.15, Math.cbrt(room / 4e6));
  const shape = [0, 1, 2].map((c) => Math.trunc((high[c] - low[c]) / cell) + 1);
  const keys = new Int32Array(names.length);
  for (let m = 0; m < names.length; m++) {
    const x = Math.trunc((middles[3 * m] - low[0]) / cell);
    const y = Math.trunc((middles[3 * m + 1] - low[1]) / cell);
    keys[m] = (x * shape[1] + y) * shape[2] + Math.trunc((middles[3 * m + 2] - low[2]) / cell);
  }
  const { starts, order } = countedSort(keys, names, shape[0] * shape[1] * shape[2]);
  return { low, cell, shape, starts, order, segments: segmentsOf(line, weight, order) };
}

/**
 * @param {Refined} refined
 * @param {Float64Array} weight
 * @param {Int32Array} order
 */
function segmentsOf({ n, centres }, weight, order) {
  const out = new Float64Array(SEGMENT * order.length);
  for (let m = 0; m < order.length; m++) {
    const [from, to] = [3 * order[m], SEGMENT * m];
    for (let c = 0; c < 3; c++) {
      out[to + c] = centres[from + c];
      out[to + 3 + c] = centres[from + 3 + c] - centres[from + c];
      out[to + 6] += out[to + 3 + c] ** 2;
    }
    out[to + 7] = weight[order[m] % n];
  }
  return out;
}

/** @param {Refined} refined */
function middlesOf({ strands, n, centres, count }) {
  const total = count.reduce((sum, c) => sum + c - 1, 0);
  const [middles, names] = [new Float64Array(3 * total), new Int32Array(total)];
  let m = 0;
  for (let k = 0; k < strands; k++) {
    for (let i = 0; i < count[k] - 1; i++, m++) {
      const at = 3 * (k * n + i);
      for (let c = 0; c < 3; c++) middles[3 * m + c] = (centres[at + c] + centres[at + 3 + c]) / 2;
      names[m] = k * n + i;
    }
  }
  return { middles, names };
}

/**
 * Lowest and highest corner of points `(n, 3)`.
 * @param {Numbers} points
 */
function boundsOf(points) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0, c = 0; i < points.length; i++, c = c < 2 ? c + 1 : 0) {
    if (points[i] < low[c]) low[c] = points[i];
    if (points[i] > high[c]) high[c] = points[i];
  }
  return [low, high];
}

/**
 * @param {Int32Array} keys
 * @param {Int32Array} names
 * @param {number} total
 */
function countedSort(keys, names, total) {
  const starts = new Int32Array(total + 1);
  for (let m = 0; m < keys.length; m++) starts[keys[m] + 1] += 1;
  for (let i = 0; i < total; i++) starts[i + 1] += starts[i];
  const [next, order] = [starts.slice(0, total), new Int32Array(names.length)];
  for (let m = 0; m < names.length; m++) order[next[keys[m]]++] = names[m];
  return { starts, order };
}
