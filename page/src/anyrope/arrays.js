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

/** Places in the data, in the order of the shape that it is broadcast to. @param {number[]} from @param {number[]} to */
function places(from, to) {
  const step = steps(from, to);
  const found = new Int32Array(sizeOf(to));
  const at = new Array(to.length).fill(0);
  let place = 0;
  for (let i = 0; i < found.length; i++) {
    found[i] = place;
    for (let k = to.length - 1; k >= 0; k--) {
      place += step[k];
      if (++at[k] < to[k]) break;
      place -= step[k] * to[k];
      at[k] = 0;
    }
  }
  return found;
}

/** The data broadcast to a shape. @param {Ndarray} a @param {number[]} shape */
export function spread(a, shape) {
  if (same(a.shape, shape)) return a.data;
  const n = sizeOf(shape);
  if (a.data.length === 1) return new Float64Array(n).fill(a.data[0]);
  return Float64Array.from(places(a.shape, shape), (place) => a.data[place]);
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

/** @type {Record<string, [(x: number, y: number) => number | boolean, ("f" | "b")?]>} */
const BINARY = {
  add: [(x, y) => x + y],
  sub: [(x, y) => x - y],
  mul: [(x, y) => x * y],
  div: [(x, y) => x / y, "f"],
  floordiv: [(x, y) => Math.floor(x / y)],
  mod: [modulo],
  pow: [power],
  minimum: [(x, y) => (x < y || x !== x ? x : y)],
  maximum: [(x, y) => (x > y || x !== x ? x : y)],
  arctan2: [Math.atan2, "f"],
  hypot: [(x, y) => Math.sqrt(x * x + y * y), "f"],
  lt: [(x, y) => x < y, "b"],
  le: [(x, y) => x <= y, "b"],
  gt: [(x, y) => x > y, "b"],
  ge: [(x, y) => x >= y, "b"],
  eq: [(x, y) => x === y, "b"],
  ne: [(x, y) => x !== y, "b"],
  and: [(x, y) => x & y],
  or: [(x, y) => x | y],
  xor: [(x, y) => x ^ y],
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
  const [does, kind] = BINARY[name];
  const [a, b] = [asArray(x), asArray(y)];
  const shape = same(a.shape, b.shape) ? a.shape : common(a.shape, b.shape);
  const out = new Float64Array(sizeOf(shape));
  const [p, q] = [a.data, b.data];
  if (p.length === out.length && q.length === out.length) for (let i = 0; i < out.length; i++) out[i] = +does(p[i], q[i]);
  else if (p.length === out.length && q.length === 1) for (let i = 0, y = q[0]; i < out.length; i++) out[i] = +does(p[i], y);
  else if (q.length === out.length && p.length === 1) for (let i = 0, x = p[0]; i < out.length; i++) out[i] = +does(x, q[i]);
  else {
    const [from, to] = [places(a.shape, shape), places(b.shape, shape)];
    for (let i = 0; i < out.length; i++) out[i] = +does(p[from[i]], q[to[i]]);
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
    return plain(new Ndarray(Float64Array.of(does(a.data, 0, a.data.length, 1)), [], kind));
  const { outer, n, inner, k } = along(a, axis);
  const out = new Float64Array(outer * inner);
  for (let p = 0; p < outer; p++)
    for (let q = 0; q < inner; q++) out[p * inner + q] = does(a.data, p * n * inner + q, n, inner);
  return plain(new Ndarray(out, a.shape.toSpliced(k, 1), kind));
}
