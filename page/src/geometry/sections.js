// Drawn sections of strands: the same law as sections.py, whose words hold here too.

import { stopAtBodies } from "./bodies.js";
import { clippedRays } from "./clip.js";

/** @import { Free, Law, Numbers, Only, Refined, Run, Sections, Strands } from "../types" */

const BEYOND = 1.5; // diameters of rope beyond a part that bear on its sections

/**
 * Sections of all strands: `rays` points each, `refine` of them to every step of the centre lines; with `only`, two
 * stations, those between them alone: the others have no size.
 * @param {Strands} strands
 * @param {number} rays
 * @param {number} refine
 * @param {Law} law
 * @param {Only} [only]
 * @returns {Sections}
 */
export function sectionsOf(strands, rays, refine, law, only) {
  const steps = refine || fineSteps(strands, law);
  const line = refinedLine(strands, steps);
  const tangents = tangentsOf(line);
  const { axis, radius } = middleOf(line);
  const flat = flatSides(line, tangents, axis, law.turn * strands.thickness);
  const plain = strands.plain || medianOf(radius.slice(0, plainColumns(radius.length)));
  const wider = spreadOf(radius, plain, line.station, strands.diameter, law.spread);
  const free = freeSections(line, wider, rays, law);
  const across = crossOf(flat, tangents);
  const radii = clippedRays(line, tangents, across, flat, free, law, only || [-Infinity, Infinity]);
  const drawn = smoothedRays(radii, line, rays);
  for (let i = 0; i < drawn.length; i++) drawn[i] *= law.inset;
  stopAtBodies(strands, line, { across, flat, free, rays }, drawn);
  return { ...line, tangents, axis, rays, rings: ringsOf(line, across, flat, free, drawn, rays) };
}

/**
 * Strands between two stations and a little beyond, every `stride`-th column of them.
 * @param {Strands} strands
 * @param {Run} only
 * @param {number} stride
 * @returns {Strands}
 */
export function partOf(strands, [from, to], stride) {
  const { columns, station, count, points, packing, diameter } = strands;
  const step = stepOf(strands);
  const column = (/** @type {number} */ at) => Math.min(Math.max(Math.round((at - station[0]) / step), 0), columns - 1);
  const first = column(from - BEYOND * diameter);
  const n = Math.floor((column(to + BEYOND * diameter) - first) / stride) + 1;
  const places = new Float64Array(3 * strands.strands * n);
  for (let k = 0; k < strands.strands; k++) {
    for (let i = 0; i < n; i++) {
      const at = 3 * (k * columns + first + i * stride);
      places.set(points.subarray(at, at + 3), 3 * (k * n + i));
    }
  }
  const each = (/** @type {Float64Array} */ values) => Float64Array.from({ length: n }, (_, i) => values[first + i * stride]);
  return {
    ...strands,
    ...{ columns: n, points: places, station: each(station), packing: each(packing), plain: plainRadius(strands) },
    count: count.map((c) => Math.min(Math.max(Math.floor((c - 1 - first) / stride) + 1, 1), n)),
  };
}

/**
 * How far strands lie from the middle of plain rope, at a rope's start, mm.
 * @param {Strands} strands
 */
function plainRadius({ strands, columns, points }) {
  const n = plainColumns(columns);
  const centres = new Float64Array(3 * strands * n);
  for (let k = 0; k < strands; k++) centres.set(points.subarray(3 * k * columns, 3 * (k * columns + n)), 3 * k * n);
  const count = new Int32Array(strands).fill(n);
  return medianOf(middleOf({ strands, n, centres, count }).radius);
}

/**
 * Sections to a step of the centre lines that keep their spacing within the law's.
 * @param {Strands} strands
 * @param {Law} law
 */
function fineSteps(strands, law) {
  return Math.max(1, Math.ceil(strands.station.length > 1 ? stepOf(strands) / (law.spacing * strands.thickness) : 1));
}

/** @param {{ station: Float64Array }} line */
function stepOf({ station }) {
  return station[1] - station[0];
}

/**
 * Centre lines with each step cut into `refine` on a cubic through the nodes, and what goes with each column.
 * @param {Strands} strands
 * @param {number} refine
 * @returns {Refined}
 */
function refinedLine(strands, refine) {
  const { columns, count, points, station, packing, thickness } = strands;
  const n = (columns - 1) * refine + 1;
  const centres = new Float64Array(strands.strands * n * 3);
  for (let k = 0; k < strands.strands; k++) refineStrand(points, k * columns, count[k], refine, centres, k * n, n);
  const [stations, thick] = [new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < n; i++) {
    const [j, t] = [Math.min(Math.floor(i / refine), columns - 2), i / refine];
    stations[i] = station[j] + (station[j + 1] - station[j]) * (t - j);
    thick[i] = thickness * (packing[j] + (packing[j + 1] - packing[j]) * (t - j));
  }
  const live = Int32Array.from(count, (c) => (c - 1) * refine + 1);
  return { strands: strands.strands, n, centres, station: stations, thickness: thick, count: live, refine };
}

/**
 * @param {Numbers} points
 * @param {number} from
 * @param {number} count
 * @param {number} refine
 * @param {Float64Array} out
 * @param {number} to
 * @param {number} n
 */
function refineStrand(points, from, count, refine, out, to, n) {
  const at = (/** @type {number} */ i, /** @type {number} */ axis) => {
    if (i < 0) return 2 * points[3 * from + axis] - points[3 * (from + 1) + axis];
    if (i < count) return points[3 * (from + i) + axis];
    return 2 * points[3 * (from + count - 1) + axis] - points[3 * (from + count - 2) + axis];
  };
  for (let axis = 0; axis < 3; axis++) {
    for (let i = 0; i < count - 1; i++) {
      const [a, b, c, d] = [at(i - 1, axis), at(i, axis), at(i + 1, axis), at(i + 2, axis)];
      for (let step = 0; step < refine; step++) {
        out[3 * (to + i * refine + step) + axis] = step ? cubic(a, b, c, d, step / refine) : b;
      }
    }
    const last = points[3 * (from + count - 1) + axis];
    for (let i = (count - 1) * refine; i < n; i++) out[3 * (to + i) + axis] = last;
  }
}

/**
 * Catmull and Rom's cubic between b and c.
 * @param {number} a
 * @param {number} b
 * @param {number} c
 * @param {number} d
 * @param {number} t
 */
function cubic(a, b, c, d, t) {
  const [t2, t3] = [t * t, t * t * t];
  return ((-t + 2 * t2 - t3) * a + (2 - 5 * t2 + 3 * t3) * b + (t + 4 * t2 - 3 * t3) * c + (t3 - t2) * d) / 2;
}

/**
 * Unit directions of the centre lines by central differences; 0 where there is no strand.
 * @param {Refined} refined
 */
function tangentsOf({ strands, n, centres, count }) {
  const out = new Float64Array(strands * n * 3);
  for (let k = 0; k < strands; k++) {
    for (let i = 0; i < count[k]; i++) {
      const before = 3 * (k * n + Math.max(i - 1, 0));
      const after = 3 * (k * n + Math.min(i + 1, count[k] - 1));
      const size = Math.max(distanceAt(centres, before, centres, after), 1e-12);
      for (let c = 0; c < 3; c++) out[3 * (k * n + i) + c] = (centres[after + c] - centres[before + c]) / size;
    }
  }
  return out;
}

/**
 * Mean of the live strands at each column `(n, 3)` and their mean distance from it `(n,)`, mm.
 * @param {Pick<Refined, "strands" | "n" | "centres" | "count">} refined
 */
function middleOf({ strands, n, centres, count }) {
  const [axis, radius, number] = [new Float64Array(3 * n), new Float64Array(n), new Float64Array(n)];
  for (let k = 0; k < strands; k++) {
    for (let i = 0; i < count[k]; i++) {
      number[i] += 1;
      for (let c = 0; c < 3; c++) axis[3 * i + c] += centres[3 * (k * n + i) + c];
    }
  }
  for (let i = 0; i < 3 * n; i++) axis[i] /= Math.max(number[Math.floor(i / 3)], 1);
  for (let k = 0; k < strands; k++) {
    for (let i = 0; i < count[k]; i++) radius[i] += distanceAt(centres, 3 * (k * n + i), axis, 3 * i);
  }
  for (let i = 0; i < n; i++) radius[i] /= Math.max(number[i], 1);
  return { axis, radius };
}

/**
 * @param {Numbers} a
 * @param {number} i
 * @param {Numbers} b
 * @param {number} j
 */
export function distanceAt(a, i, b, j) {
  return Math.sqrt((a[i] - b[j]) ** 2 + (a[i + 1] - b[j + 1]) ** 2 + (a[i + 2] - b[j + 2]) ** 2);
}

/**
 * Columns at a rope's start whose strands tell how far they lie from its middle in plain rope.
 * @param {number} n
 */
const plainColumns = (n) => Math.max(3, Math.floor(n / 50));

/**
 * How much wider than in plain rope the free section is, by column: from 1 to `most`.
 * @param {Float64Array} radius
 * @param {number} plain
 * @param {Float64Array} station
 * @param {number} diameter
 * @param {number} most
 */
function spreadOf(radius, plain, station, diameter, most) {
  const n = radius.length;
  const step = (station[n - 1] - station[0]) / Math.max(n - 1, 1);
  const half = Math.min(Math.max(Math.trunc(diameter / 2 / step), 1), Math.floor((n - 1) / 2));
  const sums = new Float64Array(n + 2 * half + 1);
  for (let i = 0; i < n + 2 * half; i++) {
    const ratio = radius[Math.min(Math.max(i - half, 0), n - 1)] / plain;
    sums[i + 1] = sums[i] + Math.min(Math.max(ratio, 1), most);
  }
  return Float64Array.from(radius, (_, i) => (sums[i + 2 * half + 1] - sums[i]) / (2 * half + 1));
}

/** @param {Numbers} values */
export function medianOf(values) {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/**
 * Across the flat side of every section: the rope's radial direction, carried along each strand both ways.
 * @param {Refined} line
 * @param {Float64Array} tangents
 * @param {Float64Array} axis
 * @param {number} turn
 */
function flatSides(line, tangents, axis, turn) {
  const out = new Float64Array(line.centres.length);
  for (let k = 0; k < line.strands; k++) {
    carryFlat(line, tangents, axis, turn, k, 1, out);
    carryFlat(line, tangents, axis, turn, k, -1, out);
    for (let i = 0; i < line.count[k]; i++) squareUp(out, tangents, 3 * (k * line.n + i));
  }
  return out;
}

/**
 * One way along strand k: the radial direction, the last one carried on where that is short, added to `out`.
 * @param {Refined} refined
 * @param {Float64Array} tangents
 * @param {Float64Array} axis
 * @param {number} turn
 * @param {number} k
 * @param {number} way
 * @param {Float64Array} out
 */
function carryFlat({ n, centres, count }, tangents, axis, turn, k, way, out) {
  const last = count[k] - 1;
  const held = new Float64Array(3);
  const away = new Float64Array(3);
  for (let m = 0; m <= last; m++) {
    const i = way === 1 ? m : last - m;
    const at = 3 * (k * n + i);
    const from = 3 * (k * n + Math.max(Math.min(i - way, last), 0));
    for (let c = 0; c < 3; c++) away[c] = centres[at + c] - axis[3 * i + c];
    flatten(away, tangents, at);
    flatten(held, tangents, at);
    const share = Math.min(distanceAt(centres, at, centres, from) / turn, 1);
    const keep = (1 - share) / Math.max(Math.sqrt(dotAt(held, 0, held, 0)), 1e-9);
    for (let c = 0; c < 3; c++) {
      held[c] = held[c] * keep + (away[c] * share) / turn;
      out[at + c] += held[c];
    }
  }
}

/**
 * Takes from a vector what it has along the tangent at a place.
 * @param {Float64Array} vector
 * @param {Float64Array} tangents
 * @param {number} at
 */
function flatten(vector, tangents, at) {
  const along = dotAt(vector, 0, tangents, at);
  for (let c = 0; c < 3; c++) vector[c] -= along * tangents[at + c];
}

/**
 * @param {Numbers} a
 * @param {number} i
 * @param {Numbers} b
 * @param {number} j
 */
export function dotAt(a, i, b, j) {
  return a[i] * b[j] + a[i + 1] * b[j + 1] + a[i + 2] * b[j + 2];
}

/**
 * A direction made square to the strand and of length 1; any square one where it has none.
 * @param {Float64Array} out
 * @param {Float64Array} tangents
 * @param {number} at
 */
function squareUp(out, tangents, at) {
  const vector = out.subarray(at, at + 3);
  flatten(vector, tangents, at);
  if (dotAt(vector, 0, vector, 0) < 1e-18) {
    const [x, y, z] = tangents.subarray(at, at + 3);
    vector.set(Math.abs(z) < 0.9 ? [-y, x, 0] : [0, -z, y]);
  }
  const size = Math.sqrt(dotAt(vector, 0, vector, 0));
  for (let c = 0; c < 3; c++) vector[c] /= size;
}

/**
 * @param {Float64Array} a
 * @param {Float64Array} b
 */
function crossOf(a, b) {
  const out = new Float64Array(a.length);
  for (let i = 0; i < a.length; i += 3) {
    out[i] = a[i + 1] * b[i + 2] - a[i + 2] * b[i + 1];
    out[i + 1] = a[i + 2] * b[i] - a[i] * b[i + 2];
    out[i + 2] = a[i] * b[i + 1] - a[i + 1] * b[i];
  }
  return out;
}

/**
 * Free sections: ray angles as cosines and sines, free ray lengths `(n, rays)` mm, the greatest half-width.
 * @param {Refined} line
 * @param {Float64Array} wider
 * @param {number} rays
 * @param {Law} law
 * @returns {Free}
 */
function freeSections(line, wider, rays, law) {
  const [cos, sin] = [new Float64Array(rays), new Float64Array(rays)];
  for (let ray = 0; ray < rays; ray++) {
    const place = (2 * Math.PI * ray) / rays;
    const angle = Math.atan2(law.halfHeight * Math.sin(place), law.halfWidth * Math.cos(place));
    [cos[ray], sin[ray]] = [Math.cos(angle), Math.sin(angle)];
  }
  const width = line.thickness.map((t, i) => law.halfWidth * t * wider[i]);
  const longest = new Float64Array(line.n * rays);
  for (let i = 0; i < line.n; i++) {
    const height = law.halfHeight * line.thickness[i];
    for (let ray = 0; ray < rays; ray++) {
      const sum = (Math.abs(cos[ray]) / width[i]) ** law.exponent + (Math.abs(sin[ray]) / height) ** law.exponent;
      longest[i * rays + ray] = (1 / sum) ** (1 / law.exponent);
    }
  }
  return { cos, sin, longest, widest: width.reduce((a, b) => Math.max(a, b), 0) };
}

/**
 * Ray lengths evened out along the strand, inward only.
 * @param {Float32Array} radii
 * @param {Refined} refined
 * @param {number} rays
 */
function smoothedRays(radii, { strands, n, count }, rays) {
  const out = radii.slice();
  for (let k = 0; k < strands; k++) {
    for (let i = 1; i < count[k] - 1; i++) {
      const at = (k * n + i) * rays;
      for (let ray = at; ray < at + rays; ray++) {
        out[ray] = Math.min(radii[ray], (radii[ray - rays] + 2 * radii[ray] + radii[ray + rays]) / 4);
      }
    }
  }
  return out;
}

/**
 * Points of all rings `(strands, n, rays, 3)` mm.
 * @param {Refined} refined
 * @param {Float64Array} across
 * @param {Float64Array} flat
 * @param {Free} free
 * @param {Float32Array} radii
 * @param {number} rays
 */
function ringsOf({ strands, n, centres, count }, across, flat, { cos, sin }, radii, rays) {
  const out = new Float32Array(strands * n * rays * 3);
  for (let k = 0; k < strands; k++) {
    for (let i = 0; i < count[k]; i++) {
      const at = 3 * (k * n + i);
      for (let ray = 0; ray < rays; ray++) {
        const m = (k * n + i) * rays + ray;
        const [a, f] = [radii[m] * cos[ray], radii[m] * sin[ray]];
        for (let c = 0; c < 3; c++) out[3 * m + c] = centres[at + c] + a * across[at + c] + f * flat[at + c];
      }
    }
  }
  return out;
}
