// Between two states of a rope: each place of it is turned and bent from the one to the other as far as is asked for.
// Both ends are the states' own tubes to the last figure; what lies between is a picture of the way, settled by nothing.
//
// At every column the sections of both states give the turn from the one to the other, as a quaternion [x, y, z, w] that
// runs on without a jump. So a leg that is led round by more than half a turn goes round, and isn't folded over. Where a
// curl opens, the rope beyond it comes to a whole turn though it lies nearly as before: it then rolls about itself, as it
// does in the hand, and isn't swung round. Steps of the rope's middle are turned along and summed from the column that
// moves least, so the rope keeps its length.

import { VERTEX } from "./tubes.js";

/** @import { Morph, Tubes, Vector } from "../types" */

const WHOLE = 1.5 * Math.PI; // a turn of the end beyond which it is a whole one
const ROUNDS = 24; // of the power iteration for a turn

/**
 * What a motion from one state's tubes to another's needs; each state's table is turned by an angle about z.
 * @param {Tubes} a
 * @param {Tubes} b
 * @param {number} angle
 * @param {number} [other] the second state's, 0 where it is left out
 * @returns {Morph}
 */
export function morphOf(a, b, angle, other = 0) {
  const from = laid(unpackedTubes(a), angle);
  const to = laid(alike(a, b), other);
  const turns = turnsOf(a, from, to);
  const parted = rolled(a.n, turns, from.axis);
  return { a, from, to: turnedBack(a, to, turns), turns, ...parted, anchor: anchorOf(a.n, from.axis, to.axis) };
}

/**
 * Each column's turn as a roll about the rope, `rolls` in radians about the unit vectors `along`, and then a swing. All
 * is swing but where the end comes to a whole turn: the roll then grows to a whole one, in step with the turns.
 * @param {number} n
 * @param {Float64Array} turns
 * @param {Float32Array} axis
 * @returns {{ swings: Float64Array, rolls: Float64Array, along: Float64Array }}
 */
function rolled(n, turns, axis) {
  const [rolls, along] = [new Float64Array(n), new Float64Array(3 * n)];
  if (angleOf(turns, n - 1) < WHOLE) return { swings: turns, rolls, along };
  for (let i = 1; i < n; i++) {
    const cosine = [0, 1, 2, 3].reduce((sum, c) => sum + turns[4 * i + c] * turns[4 * i - 4 + c], 0);
    rolls[i] = rolls[i - 1] + Math.acos(Math.min(Math.abs(cosine), 1));
  }
  for (let i = 0; i < n; i++) {
    const [before, after] = [Math.max(i - 1, 0), Math.min(i + 1, n - 1)];
    const way = [0, 1, 2].map((c) => axis[3 * after + c] - axis[3 * before + c]);
    const size = Math.max(Math.hypot(...way), 1e-9);
    along.set(way.map((x) => x / size), 3 * i);
  }
  const either = [1, -1].map((sign) => {
    const own = rolls.map((x) => (sign * 2 * Math.PI * x) / rolls[n - 1]);
    const swings = swingsOf(turns, own, along);
    return { swings, rolls: own, along, most: Math.max(...own.map((_, i) => angleOf(swings, i))) };
  });
  const [{ swings, rolls: chosen }] = either.sort((one, other) => one.most - other.most);
  return { swings, rolls: chosen, along };
}

/**
 * The angle of a column's turn, 0 to 2 pi.
 * @param {Float64Array} turns
 * @param {number} i
 */
const angleOf = (turns, i) => 2 * Math.atan2(Math.hypot(turns[4 * i], turns[4 * i + 1], turns[4 * i + 2]), turns[4 * i + 3]);

/**
 * What is left of turns once rolls are taken from them: turn = swing after roll.
 * @param {Float64Array} turns
 * @param {Float64Array} rolls
 * @param {Float64Array} along
 */
function swingsOf(turns, rolls, along) {
  const swings = new Float64Array(turns.length);
  rolls.forEach((angle, i) => {
    const [x, y, z] = along.subarray(3 * i, 3 * i + 3);
    const s = -Math.sin(angle / 2);
    swings.set(product(turns.subarray(4 * i, 4 * i + 4), [s * x, s * y, s * z, Math.cos(angle / 2)]), 4 * i);
  });
  return swings;
}

/**
 * The product of two quaternions: the second's turn, then the first's.
 * @param {ArrayLike<number>} p
 * @param {ArrayLike<number>} q
 */
const product = (p, q) => [
  p[3] * q[0] + p[0] * q[3] + p[1] * q[2] - p[2] * q[1],
  p[3] * q[1] - p[0] * q[2] + p[1] * q[3] + p[2] * q[0],
  p[3] * q[2] + p[0] * q[1] - p[1] * q[0] + p[2] * q[3],
  p[3] * q[3] - p[0] * q[0] - p[1] * q[1] - p[2] * q[2],
];

/** @param {Tubes} tubes */
const unpackedTubes = ({ vertices, axis }) => ({ ...unpacked(vertices), axis: Float32Array.from(axis) });

/**
 * Places and normals of a rope's vertices and its middle, turned about z where they are.
 * @param {Morph["from"]} shape
 * @param {number} angle
 */
function laid(shape, angle) {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  for (const values of [shape.places, shape.normals, shape.axis]) {
    for (let i = 0; i < values.length; i += 3) {
      const [x, y] = [values[i], values[i + 1]];
      values[i] = c * x - s * y;
      values[i + 1] = s * x + c * y;
    }
  }
  return shape;
}

/** @param {ArrayBuffer} vertices */
function unpacked(vertices) {
  const [floats, bytes] = [new Float32Array(vertices), new Int8Array(vertices)];
  const total = vertices.byteLength / VERTEX;
  const [places, normals] = [new Float32Array(3 * total), new Float32Array(3 * total)];
  for (let m = 0; m < total; m++) {
    for (let c = 0; c < 3; c++) {
      places[3 * m + c] = floats[5 * m + c];
      normals[3 * m + c] = bytes[VERTEX * m + 12 + c] / 127;
    }
  }
  return { places, normals };
}

/**
 * The second state's places and normals at the first one's columns, mixed from its own; at its ends beyond them.
 * @param {Tubes} a
 * @param {Tubes} b
 */
function alike(a, b) {
  const { places, normals } = unpacked(b.vertices);
  const total = a.vertices.byteLength / VERTEX;
  const out = { places: new Float32Array(3 * total), normals: new Float32Array(3 * total), axis: new Float32Array(3 * a.n) };
  const step = b.station[1] - b.station[0];
  for (let i = 0; i < a.n; i++) {
    const at = Math.min(Math.max((a.station[i] - b.station[0]) / step, 0), b.n - 1);
    const [j, share] = [Math.min(Math.floor(at), b.n - 2), at - Math.min(Math.floor(at), b.n - 2)];
    mix(b.axis, j, j + 1, share, out.axis, i);
    for (let k = 0; k < a.strands; k++) {
      for (let ray = 0; ray < a.rays; ray++) {
        const [one, other] = [(k * b.n + j) * b.rays + ray, (k * b.n + j + 1) * b.rays + ray];
        const m = (k * a.n + i) * a.rays + ray;
        mix(places, one, other, share, out.places, m);
        mix(normals, one, other, share, out.normals, m);
      }
    }
  }
  for (let k = 0; k < a.strands; k++) {
    capAlike(a, b, normals, k, 0, out);
    capAlike(a, b, normals, k, 1, out);
  }
  return out;
}

/**
 * A flat end of strand k from the ring beside it: its rim, and its hub in the middle of that.
 * @param {Tubes} a
 * @param {Tubes} b
 * @param {Float32Array} normals of the second state
 * @param {number} k
 * @param {number} end
 * @param {{ places: Float32Array, normals: Float32Array }} out
 */
function capAlike(a, b, normals, k, end, out) {
  const first = (/** @type {Tubes} */ { strands, n, rays }) => strands * n * rays + (end * strands + k) * (rays + 1);
  const ring = (k * a.n + (end ? a.count[k] - 1 : 0)) * a.rays;
  const [to, from] = [first(a), first(b)];
  const hub = out.places.subarray(3 * (to + a.rays), 3 * (to + a.rays) + 3);
  for (let ray = 0; ray <= a.rays; ray++) {
    out.normals.set(normals.subarray(3 * from, 3 * from + 3), 3 * (to + ray));
    if (ray === a.rays) break;
    const place = out.places.subarray(3 * (ring + ray), 3 * (ring + ray) + 3);
    out.places.set(place, 3 * (to + ray));
    for (let c = 0; c < 3; c++) hub[c] += place[c] / a.rays;
  }
}

/**
 * @param {Float32Array} values
 * @param {number} i
 * @param {number} j
 * @param {number} share
 * @param {Float32Array} out
 * @param {number} to
 */
function mix(values, i, j, share, out, to) {
  for (let c = 0; c < 3; c++) out[3 * to + c] = values[3 * i + c] + (values[3 * j + c] - values[3 * i + c]) * share;
}

/**
 * Quaternions `(n, 4)` that turn the first state's sections into the second's, without a jump from column to column.
 * @param {Tubes} a
 * @param {Morph["from"]} from
 * @param {Morph["from"]} to
 */
function turnsOf(a, from, to) {
  const turns = new Float64Array(4 * a.n);
  /** @type {number[]} */
  let last = [0, 0, 0, 1];
  for (let i = 0; i < a.n; i++) {
    const found = quaternionOf(sectionSpread(a, from, to, i), last);
    const way = found.reduce((sum, x, c) => sum + x * last[c], 0) < 0 ? -1 : 1;
    last = found.map((x) => way * x);
    turns.set(last, 4 * i);
  }
  return turns;
}

/**
 * Sums of products `(3, 3)` of what belongs together in both states' section i: strands' middles, and the way on.
 * @param {Tubes} a
 * @param {Morph["from"]} from
 * @param {Morph["from"]} to
 * @param {number} i
 */
function sectionSpread({ n, strands, rays }, from, to, i) {
  const sums = new Float64Array(9);
  const half = rays >> 1;
  const put = (/** @type {number[]} */ p, /** @type {number[]} */ q) => {
    for (let r = 0; r < 3; r++) for (let c = 0; c < 3; c++) sums[3 * r + c] += p[r] * q[c];
  };
  const off = (/** @type {Morph["from"]} */ state, /** @type {number} */ m) =>
    [0, 1, 2].map((c) => (state.places[3 * m + c] + state.places[3 * (m + half) + c]) / 2 - state.axis[3 * i + c]);
  for (let k = 0; k < strands; k++) put(off(from, (k * n + i) * rays), off(to, (k * n + i) * rays));
  const [before, after] = [Math.max(i - 1, 0), Math.min(i + 1, n - 1)];
  const way = (/** @type {Float32Array} */ axis) => [0, 1, 2].map((c) => axis[3 * after + c] - axis[3 * before + c]);
  const [p, q] = [way(from.axis), way(to.axis)];
  const weight = sums[0] + sums[4] + sums[8];
  const scale = Math.sqrt(Math.max(Math.abs(weight), 1e-6)) / Math.max(Math.hypot(...p), Math.hypot(...q), 1e-9);
  put(p.map((x) => x * scale), q.map((x) => x * scale));
  return sums;
}

/**
 * The turn that brings one set of vectors nearest to another, from the sums of their products: the largest eigenvector
 * of a matrix of four rows (Horn 1987), found by power iteration from one that isn't far off.
 * @param {Float64Array} s
 * @param {number[]} start
 */
function quaternionOf(s, start) {
  const [xx, xy, xz, yx, yy, yz, zx, zy, zz] = s;
  const rows = [
    [xx - yy - zz, xy + yx, zx + xz, yz - zy],
    [xy + yx, yy - xx - zz, yz + zy, zx - xz],
    [zx + xz, yz + zy, zz - xx - yy, xy - yx],
    [yz - zy, zx - xz, xy - yx, xx + yy + zz],
  ];
  const shift = Math.max(...rows.map((row) => row.reduce((sum, x) => sum + Math.abs(x), 0)));
  let q = start.map((x, i) => x + 0.01 * (i + 1));
  for (let round = 0; round < ROUNDS; round++) {
    const next = rows.map((row, i) => row.reduce((sum, x, c) => sum + x * q[c], shift * q[i]));
    const size = Math.max(Math.hypot(...next), 1e-300);
    q = next.map((x) => x / size);
  }
  return q;
}

/**
 * The second state's places as offsets from its middle, its normals and the steps of its middle, turned back by each
 * column's turn.
 * @param {Tubes} a
 * @param {Morph["from"]} to
 * @param {Float64Array} turns
 */
function turnedBack({ n, strands, rays, count }, to, turns) {
  const out = { places: new Float32Array(to.places.length), normals: new Float32Array(to.normals.length), axis: to.axis };
  const back = new Float64Array(9);
  eachVertex({ n, strands, rays, count }, (m, i) => {
    matrixOf(powerOf(turns, i, -1), back);
    for (const [values, base] of /** @type {[Float32Array, Float32Array | null][]} */ ([[to.places, to.axis], [to.normals, null]])) {
      const [x, y, z] = [0, 1, 2].map((c) => values[3 * m + c] - (base ? base[3 * i + c] : 0));
      const target = base ? out.places : out.normals;
      for (let r = 0; r < 3; r++) target[3 * m + r] = back[3 * r] * x + back[3 * r + 1] * y + back[3 * r + 2] * z;
    }
  });
  return out;
}

/**
 * Every vertex of tubes with its column, those of a column one after the other.
 * @param {Pick<Tubes, "n" | "strands" | "rays" | "count">} tubes
 * @param {(m: number, i: number) => void} act
 */
function eachVertex({ n, strands, rays, count }, act) {
  const sides = strands * n * rays;
  const caps = strands * (rays + 1);
  for (let k = 0; k < strands; k++) {
    for (let m = 0; m <= rays; m++) {
      act(sides + k * (rays + 1) + m, 0);
      act(sides + caps + k * (rays + 1) + m, count[k] - 1);
    }
  }
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < strands; k++) for (let ray = 0; ray < rays; ray++) act((k * n + i) * rays + ray, i);
  }
}

/**
 * A column's turn, as far as is asked for; a share of -1 is the turn back.
 * @param {Float64Array} turns
 * @param {number} i
 * @param {number} share
 */
function powerOf(turns, i, share) {
  const [qx, qy, qz, qw] = turns.subarray(4 * i, 4 * i + 4);
  const size = Math.hypot(qx, qy, qz);
  const half = share * Math.atan2(size, qw);
  const s = size > 1e-12 ? Math.sin(half) / size : 0;
  return [qx * s, qy * s, qz * s, Math.cos(half)];
}

/**
 * A column's turn a share of the way: its roll and its swing, each as far.
 * @param {Morph} morph
 * @param {number} i
 * @param {number} share
 */
function turnAt({ swings, rolls, along }, i, share) {
  const swing = powerOf(swings, i, share);
  if (rolls[i] === 0) return swing;
  const s = Math.sin((share * rolls[i]) / 2);
  return product(swing, [s * along[3 * i], s * along[3 * i + 1], s * along[3 * i + 2], Math.cos((share * rolls[i]) / 2)]);
}

/**
 * The matrix of a turn.
 * @param {number[]} turn
 * @param {Float64Array} out
 */
function matrixOf([x, y, z, w], out) {
  out[0] = 1 - 2 * (y * y + z * z);
  out[1] = 2 * (x * y - w * z);
  out[2] = 2 * (x * z + w * y);
  out[3] = 2 * (x * y + w * z);
  out[4] = 1 - 2 * (x * x + z * z);
  out[5] = 2 * (y * z - w * x);
  out[6] = 2 * (x * z - w * y);
  out[7] = 2 * (y * z + w * x);
  out[8] = 1 - 2 * (x * x + y * y);
}

/**
 * The column that moves least.
 * @param {number} n
 * @param {Float32Array} a
 * @param {Float32Array} b
 */
function anchorOf(n, a, b) {
  let [best, least] = [0, Infinity];
  for (let i = 0; i < n; i++) {
    const away = Math.hypot(a[3 * i] - b[3 * i], a[3 * i + 1] - b[3 * i + 1], a[3 * i + 2] - b[3 * i + 2]);
    if (away < 0.99 * least) [best, least] = [i, away];
  }
  return best;
}

/**
 * The tubes a share of the way, 0 to 1: vertices into `vertices`, the rope's middle into `axis`.
 * @param {Morph} morph
 * @param {number} share
 * @param {ArrayBuffer} vertices
 * @param {Float32Array} axis
 */
export function morphed(morph, share, vertices, axis) {
  const { a, from, to } = morph;
  const matrices = new Float64Array(9 * a.n);
  for (let i = 0; i < a.n; i++) matrixOf(turnAt(morph, i, share), matrices.subarray(9 * i, 9 * i + 9));
  axisAt(morph, share, matrices, axis);
  const [floats, bytes] = [new Float32Array(vertices), new Int8Array(vertices)];
  const [base, left] = [from.axis, 1 - share];
  eachVertex(a, (m, i) => {
    const [v, w, r] = [3 * m, 3 * i, 9 * i];
    const x = (from.places[v] - base[w]) * left + to.places[v] * share;
    const y = (from.places[v + 1] - base[w + 1]) * left + to.places[v + 1] * share;
    const z = (from.places[v + 2] - base[w + 2]) * left + to.places[v + 2] * share;
    const nx = from.normals[v] * left + to.normals[v] * share;
    const ny = from.normals[v + 1] * left + to.normals[v + 1] * share;
    const nz = from.normals[v + 2] * left + to.normals[v + 2] * share;
    const size = 127 / Math.max(Math.sqrt(nx * nx + ny * ny + nz * nz), 1e-9);
    for (let c = 0; c < 3; c++) {
      const [p, q, s] = [matrices[r + 3 * c], matrices[r + 3 * c + 1], matrices[r + 3 * c + 2]];
      floats[5 * m + c] = axis[w + c] + p * x + q * y + s * z;
      bytes[VERTEX * m + 12 + c] = Math.round((p * nx + q * ny + s * nz) * size);
    }
  });
}

/**
 * The rope's middle a share of the way: steps turned along, summed both ways from the anchor.
 * @param {Morph} morph
 * @param {number} share
 * @param {Float64Array} matrices
 * @param {Float32Array} out
 */
function axisAt({ a, from, to, turns, anchor }, share, matrices, out) {
  const back = new Float64Array(9);
  const at = (/** @type {number} */ c) => from.axis[3 * anchor + c] * (1 - share) + to.axis[3 * anchor + c] * share;
  /** @type {Vector} */
  let place = [at(0), at(1), at(2)];
  out.set(place, 3 * anchor);
  const go = (/** @type {number} */ i, /** @type {number} */ way) => {
    matrixOf(powerOf(turns, i, -1), back);
    const step = [0, 1, 2].map((c) => to.axis[3 * (i + way) + c] - to.axis[3 * i + c]);
    const own = [0, 1, 2].map((c) => from.axis[3 * (i + way) + c] - from.axis[3 * i + c]);
    const mixed = own.map((x, r) => x * (1 - share) + (back[3 * r] * step[0] + back[3 * r + 1] * step[1] + back[3 * r + 2] * step[2]) * share);
    const m = 9 * i;
    const turned = (/** @type {number} */ r) =>
      matrices[m + 3 * r] * mixed[0] + matrices[m + 3 * r + 1] * mixed[1] + matrices[m + 3 * r + 2] * mixed[2];
    place = [place[0] + turned(0), place[1] + turned(1), place[2] + turned(2)];
    out.set(place, 3 * (i + way));
  };
  for (let i = anchor; i + 1 < a.n; i++) go(i, 1);
  place = [at(0), at(1), at(2)];
  for (let i = anchor; i > 0; i--) go(i, -1);
}
