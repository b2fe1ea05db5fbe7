// Arrays of the page's Python (any_rope/stand_ins/numpy.py): values row by row, a shape, and a kind: f, i or b. Every
// result is a new array; nothing is a view of another.

/** @typedef {"f" | "i" | "b"} Kind */
/** @typedef {Ndarray | number | boolean} Operand */

export class Ndarray {
  /** @param {Float64Array} data @param {number[]} shape @param {Kind} kind */
  constructor(data, shape, kind = "f") {
    this.data = data;
    this.shape = shape;
    this.kind = kind;
  }
}

/** A shape with `n` of its axes from `k` on replaced. @param {number[]} shape @param {number} k @param {number} n @param {number[]} by */
export const spliced = (shape, k, n, ...by) => [...shape.slice(0, k), ...by, ...shape.slice(k + n)];

/** @param {number[]} shape */
export const sizeOf = (shape) => shape.reduce((size, n) => size * n, 1);

/** @param {Kind} a @param {Kind} b @returns {Kind} */
export const wider = (a, b) => (a === "f" || b === "f" ? "f" : a === "i" || b === "i" ? "i" : "b");

/** @param {Operand} x @returns {Ndarray} */
export function asArray(x) {
  if (x instanceof Ndarray) return x;
  const kind = typeof x === "boolean" ? "b" : Number.isInteger(x) ? "i" : "f";
  return new Ndarray(Float64Array.of(Number(x)), [], kind);
}

/** An array without axes as a plain value. @param {Ndarray} a @returns {Operand} */
export function plain(a) {
  if (a.shape.length) return a;
  return a.kind === "b" ? a.data[0] !== 0 : a.data[0];
}

/** The shape that both broadcast to. @param {number[]} p @param {number[]} q */
export function common(p, q) {
  const shape = new Array(Math.max(p.length, q.length));
  for (let k = 1; k <= shape.length; k++) {
    const [a, b] = [p[p.length - k] ?? 1, q[q.length - k] ?? 1];
    if (a !== b && a !== 1 && b !== 1) throw new Error(`shapes (${p}) and (${q}) don't go together`);
    shape[shape.length - k] = a === 1 ? b : a;
  }
  return shape;
}

/** @param {number[]} p @param {number[]} q */
const same = (p, q) => p.length === q.length && p.every((n, k) => n === q[k]);

/** Steps in the data of a shape for each axis of the one it is broadcast to. @param {number[]} from @param {number[]} to */
function steps(from, to) {
  const found = new Array(to.length).fill(0);
  let step = 1;
  for (let k = 1; k <= from.length; k++) {
    const n = from[from.length - k];
    found[to.length - k] = n === 1 ? 0 : step;
    step *= n;
  }
  return found;
}

/**
 * Walks over a shape row by row, along its last axis: told how long rows are, where a row begins in the result, and where
 * it begins and how far its values are apart in each of the arrays.
 * @param {number[]} shape @param {number[][]} step steps of each array
 * @param {(n: number, out: number, at: number[], apart: number[]) => void} row
 */
function rows(shape, step, row) {
  const last = shape.length - 1;
  const n = last < 0 ? 1 : shape[last];
  const apart = step.map((own) => own[last] ?? 0);
  const at = step.map(() => 0);
  const count = new Array(Math.max(last, 0)).fill(0);
  const size = sizeOf(shape);
  for (let out = 0; out < size; out += n) {
    row(n, out, at, apart);
    for (let k = last - 1; k >= 0; k--) {
      for (let m = 0; m < at.length; m++) at[m] += step[m][k];
      if (++count[k] < shape[k]) break;
      for (let m = 0; m < at.length; m++) at[m] -= step[m][k] * shape[k];
      count[k] = 0;
    }
  }
}

/** The data broadcast to a shape. @param {Ndarray} a @param {number[]} shape */
export function spread(a, shape) {
  if (same(a.shape, shape)) return a.data;
  const out = new Float64Array(sizeOf(shape));
  if (a.data.length === 1) return out.fill(a.data[0]);
  rows(shape, [steps(a.shape, shape)], (n, first, [at], [apart]) => {
    for (let i = 0; i < n; i++) out[first + i] = a.data[at + i * apart];
  });
  return out;
}

/** @param {number} x */
const rint = (x) => {
  const up = Math.round(x);
  return up - x === 0.5 && up % 2 ? up - 1 : up;
};

/** @param {number} x @param {number} y */
const modulo = (x, y) => {
  const left = x % y;
  return left !== 0 && left < 0 !== y < 0 ? left + y : left;
};

/** @param {number} x @param {number} y */
const power = (x, y) => (y === 2 ? x * x : y === 0.5 ? Math.sqrt(x) : Math.pow(x, y));

/**
 * A row of results from a row of each operand: where they begin, and how far their values are apart.
 * @typedef {(n: number, a: Float64Array, i: number, p: number, b: Float64Array, j: number, q: number, r: Float64Array, k: number) => void} Row
 */

/** The commonest have loops of their own: a call for each value would take several times as long. @type {Record<string, Row>} */
const OWN_LOOPS = {
  add: (n, a, i, p, b, j, q, r, k) => {
    for (let m = 0; m < n; m++) r[k + m] = a[i + m * p] + b[j + m * q];
  },
  sub: (n, a, i, p, b, j, q, r, k) => {
    for (let m = 0; m < n; m++) r[k + m] = a[i + m * p] - b[j + m * q];
  },
  mul: (n, a, i, p, b, j, q, r, k) => {
    for (let m = 0; m < n; m++) r[k + m] = a[i + m * p] * b[j + m * q];
  },
  div: (n, a, i, p, b, j, q, r, k) => {
    for (let m = 0; m < n; m++) r[k + m] = a[i + m * p] / b[j + m * q];
  },
};

/** @param {(x: number, y: number) => number | boolean} does @returns {Row} */
const each =
  (does) =>
  (n, a, i, p, b, j, q, r, k) => {
    for (let m = 0; m < n; m++) r[k + m] = +does(a[i + m * p], b[j + m * q]);
  };

/** @type {Record<string, [Row, ("f" | "b")?]>} */
const BINARY = {
  add: [OWN_LOOPS.add],
  sub: [OWN_LOOPS.sub],
  mul: [OWN_LOOPS.mul],
  div: [OWN_LOOPS.div, "f"],
  floordiv: [each((x, y) => Math.floor(x / y))],
  mod: [each(modulo)],
  pow: [each(power)],
  minimum: [each((x, y) => (x < y || Number.isNaN(x) ? x : y))],
  maximum: [each((x, y) => (x > y || Number.isNaN(x) ? x : y))],
  arctan2: [each(Math.atan2), "f"],
  hypot: [each((x, y) => Math.sqrt(x * x + y * y)), "f"],
  lt: [each((x, y) => x < y), "b"],
  le: [each((x, y) => x <= y), "b"],
  gt: [each((x, y) => x > y), "b"],
  ge: [each((x, y) => x >= y), "b"],
  eq: [each((x, y) => x === y), "b"],
  ne: [each((x, y) => x !== y), "b"],
  and: [each((x, y) => x & y)],
  or: [each((x, y) => x | y)],
  xor: [each((x, y) => x ^ y)],
};

/** @type {Record<string, [(x: number) => number | boolean, ("f" | "b")?]>} */
const UNARY = {
  sin: [Math.sin, "f"],
  cos: [Math.cos, "f"],
  tan: [Math.tan, "f"],
  arcsin: [Math.asin, "f"],
  arccos: [Math.acos, "f"],
  arctan: [Math.atan, "f"],
  sqrt: [Math.sqrt, "f"],
  exp: [Math.exp, "f"],
  log: [Math.log, "f"],
  floor: [Math.floor, "f"],
  ceil: [Math.ceil, "f"],
  rint: [rint, "f"],
  abs: [Math.abs],
  neg: [(x) => -x],
  sign: [Math.sign],
  radians: [(x) => x * (Math.PI / 180), "f"],
  degrees: [(x) => x * (180 / Math.PI), "f"],
  isfinite: [Number.isFinite, "b"],
  isneginf: [(x) => x === -Infinity, "b"],
  invert: [(x) => 1 - x, "b"],
};

/** @param {string} name @param {Operand} x @param {Operand} y */
export function binary(name, x, y) {
  const [row, kind] = BINARY[name];
  const [a, b] = [asArray(x), asArray(y)];
  const shape = same(a.shape, b.shape) ? a.shape : common(a.shape, b.shape);
  const size = sizeOf(shape);
  const out = new Float64Array(size);
  const [p, q] = [a.data, b.data];
  const whole = (/** @type {Float64Array} */ d) => d.length === size || d.length === 1;
  if (whole(p) && whole(q)) row(size, p, 0, +(p.length > 1), q, 0, +(q.length > 1), out, 0);
  else {
    rows(shape, [steps(a.shape, shape), steps(b.shape, shape)], (n, first, at, apart) =>
      row(n, p, at[0], apart[0], q, at[1], apart[1], out, first),
    );
  }
  return plain(new Ndarray(out, shape, kind ?? wider(a.kind, b.kind)));
}

/** @param {string} name @param {Operand} x */
export function unary(name, x) {
  const [does, kind] = UNARY[name];
  const a = asArray(x);
  const out = new Float64Array(a.data.length);
  for (let i = 0; i < out.length; i++) out[i] = +does(a.data[i]);
  return plain(new Ndarray(out, a.shape, kind ?? a.kind));
}

/** How often an axis is met, its length, and the values inside one step of it. @param {Ndarray} a @param {number} axis */
export function along(a, axis) {
  const k = axis < 0 ? axis + a.shape.length : axis;
  return { outer: sizeOf(a.shape.slice(0, k)), n: a.shape[k], inner: sizeOf(a.shape.slice(k + 1)), k };
}

/** @typedef {(d: Float64Array, at: number, n: number, step: number) => number} Reducer */

/** @type {Reducer} */
function total(d, at, n, step) {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += d[at + i * step];
  return sum;
}

/** @param {(x: number, y: number) => boolean} better @returns {Reducer} */
const best = (better) => (d, at, n, step) => {
  let found = 0;
  for (let i = 1; i < n; i++) if (better(d[at + i * step], d[at + found * step])) found = i;
  return found;
};
const lowest = best((x, y) => x < y);
const highest = best((x, y) => x > y);

/** @param {number} wanted @returns {Reducer} */
const holds = (wanted) => (d, at, n, step) => {
  for (let i = 0; i < n; i++) if ((d[at + i * step] !== 0) === (wanted !== 0)) return wanted;
  return 1 - wanted;
};

/** @type {Record<string, [Reducer, Kind?]>} */
const REDUCE = {
  sum: [total],
  mean: [(d, at, n, step) => total(d, at, n, step) / n, "f"],
  min: [(d, at, n, step) => d[at + lowest(d, at, n, step) * step]],
  max: [(d, at, n, step) => d[at + highest(d, at, n, step) * step]],
  argmin: [lowest, "i"],
  argmax: [highest, "i"],
  any: [holds(1), "b"],
  all: [holds(0), "b"],
  norm: [
    (d, at, n, step) => {
      let squares = 0;
      for (let i = 0; i < n; i++) squares += d[at + i * step] ** 2;
      return Math.sqrt(squares);
    },
    "f",
  ],
};

/** @param {string} name @param {Operand} x @param {number | null} axis */
export function reduce(name, x, axis) {
  const a = asArray(x);
  const [does, fixed] = REDUCE[name];
  const kind = fixed ?? (name === "sum" && a.kind === "b" ? "i" : a.kind);
  if (a.data.length === 0 && (name === "min" || name === "max")) throw new Error(`${name} of no values`);
  if (axis === null || axis === undefined)
    {return plain(new Ndarray(Float64Array.of(does(a.data, 0, a.data.length, 1)), [], kind));}
  const { outer, n, inner, k } = along(a, axis);
  const out = new Float64Array(outer * inner);
  for (let p = 0; p < outer; p++)
    {for (let q = 0; q < inner; q++) out[p * inner + q] = does(a.data, p * n * inner + q, n, inner);}
  return plain(new Ndarray(out, spliced(a.shape, k, 1), kind));
}
