// Taking values out of arrays, putting them in, and putting arrays together.

import { Ndarray, along, asArray, common, plain, sizeOf, spliced, spread, wider } from "./arrays.js";

/** @typedef {import("./arrays.js").Operand} Operand */
/** @typedef {import("./arrays.js").Kind} Kind */

/** Values at places along one axis, where they are given by number. @param {Ndarray} a @param {number} axis @param {ArrayLike<number>} numbers @param {number[]} shape */
function taken(a, axis, numbers, shape) {
  const { outer, n, inner, k } = along(a, axis);
  const m = numbers.length;
  const out = new Float64Array(outer * m * inner);
  for (let i = 0; i < m; i++) {
    const j = numbers[i] < 0 ? numbers[i] + n : numbers[i];
    if (!(j >= 0 && j < n)) throw new Error(`index ${numbers[i]} of ${n}`);
    for (let p = 0; p < outer; p++)
      {for (let q = 0; q < inner; q++) out[(p * m + i) * inner + q] = a.data[(p * n + j) * inner + q];}
  }
  return new Ndarray(out, [...a.shape.slice(0, k), ...shape, ...a.shape.slice(k + 1)], a.kind);
}

/** One place along an axis. @param {Ndarray} a @param {number} axis @param {number} i */
export const at = (a, axis, i) => plain(taken(a, axis, [i], []));

/** A run along an axis; null stands for what is left out. @param {Ndarray} a @param {number} axis @param {number | null} from @param {number | null} to @param {number | null} step */
export function slice(a, axis, from, to, step) {
  const n = along(a, axis).n;
  const by = step ?? 1;
  /** @param {number | null} x @param {number} low @param {number} high @param {number} other */
  const end = (x, low, high, other) => (x === null ? other : Math.min(Math.max(x < 0 ? x + n : x, low), high));
  const [first, last] = by > 0 ? [end(from, 0, n, 0), end(to, 0, n, n)] : [end(from, -1, n - 1, n - 1), end(to, -1, n - 1, -1)];
  const numbers = new Float64Array(Math.max(0, Math.ceil((last - first) / by)));
  for (let i = 0; i < numbers.length; i++) numbers[i] = first + i * by;
  return taken(a, axis, numbers, [numbers.length]);
}

/** @param {Ndarray} a */
export function flatnonzero(a) {
  const found = [];
  for (let i = 0; i < a.data.length; i++) if (a.data[i]) found.push(i);
  return new Ndarray(Float64Array.from(found), [found.length], "i");
}

/** By an array of numbers, or of true and false. @param {Ndarray} a @param {number} axis @param {Ndarray} by */
export function pick(a, axis, by) {
  if (by.kind !== "b") return plain(taken(a, axis, by.data, by.shape));
  const rest = axis + by.shape.length;
  const flat = new Ndarray(a.data, [...a.shape.slice(0, axis), by.data.length, ...a.shape.slice(rest)], a.kind);
  const numbers = flatnonzero(by);
  return taken(flat, axis, numbers.data, numbers.shape);
}

/** By two arrays of numbers, for the first two axes. @param {Ndarray} a @param {Operand} rows @param {Operand} columns */
export function pickTwo(a, rows, columns) {
  const [i, j] = [asArray(rows), asArray(columns)];
  const shape = common(i.shape, j.shape);
  const [p, q] = [spread(i, shape), spread(j, shape)];
  const [n, m] = a.shape;
  const numbers = p.map((row, k) => (row < 0 ? row + n : row) * m + (q[k] < 0 ? q[k] + m : q[k]));
  return plain(taken(new Ndarray(a.data, [n * m, ...a.shape.slice(2)], a.kind), 0, numbers, shape));
}

/** The number of every value in an array's data. @param {Ndarray} a */
export const numbersOf = (a) => new Ndarray(Float64Array.from(a.data.keys()), a.shape, "i");

/** Puts values at places of an array, as `numbersOf` counts them. @param {Ndarray} a @param {Operand} there @param {Operand} values */
export function put(a, there, values) {
  const places = asArray(there);
  const given = spread(asArray(values), places.shape);
  for (let i = 0; i < given.length; i++) a.data[places.data[i]] = a.kind === "f" ? given[i] : Math.trunc(given[i]);
}

/** @param {Ndarray} a @param {number} axis */
export const newAxis = (a, axis) => new Ndarray(a.data, spliced(a.shape, axis, 0, 1), a.kind);

/** @param {number} axis @param {Operand[]} given */
export function concatenate(axis, ...given) {
  const arrays = given.map(asArray);
  const { outer, inner, k } = along(arrays[0], axis);
  const n = arrays.reduce((sum, a) => sum + a.shape[k], 0);
  const out = new Float64Array(outer * n * inner);
  let [before, kind] = [0, arrays[0].kind];
  for (const a of arrays) {
    const own = a.shape[k] * inner;
    for (let p = 0; p < outer; p++) out.set(a.data.subarray(p * own, (p + 1) * own), p * n * inner + before);
    before += own;
    kind = a.data.length ? wider(kind, a.kind) : kind;
  }
  return new Ndarray(out, spliced(arrays[0].shape, k, 1, n), kind);
}

/** @param {number} axis @param {Operand[]} given */
export function stack(axis, ...given) {
  const arrays = given.map(asArray);
  const k = axis < 0 ? axis + arrays[0].shape.length + 1 : axis;
  return concatenate(k, ...arrays.map((a) => newAxis(a, k)));
}

/** @param {Operand} test @param {Operand} yes @param {Operand} no */
export function where(test, yes, no) {
  const [c, a, b] = [asArray(test), asArray(yes), asArray(no)];
  const shape = common(common(c.shape, a.shape), b.shape);
  const [p, q, r] = [spread(c, shape), spread(a, shape), spread(b, shape)];
  return new Ndarray(
    p.map((chosen, i) => (chosen ? q[i] : r[i])),
    shape,
    wider(a.kind, b.kind),
  );
}

/** @param {Ndarray} a @param {number[]} shape */
export function reshape(a, shape) {
  const free = shape.indexOf(-1);
  if (free < 0) return new Ndarray(a.data.slice(), shape, a.kind);
  const known = sizeOf(spliced(shape, free, 1));
  return new Ndarray(a.data.slice(), spliced(shape, free, 1, known ? a.data.length / known : 0), a.kind);
}

/** @param {Ndarray} a @param {number} from @param {number} to */
export function moveAxis(a, from, to) {
  const count = a.shape.length;
  const [f, t] = [from < 0 ? from + count : from, to < 0 ? to + count : to];
  const order = spliced(spliced([...a.shape.keys()], f, 1), t, 0, f);
  const step = a.shape.map((_, k) => sizeOf(a.shape.slice(k + 1)));
  const shape = order.map((k) => a.shape[k]);
  const out = new Float64Array(a.data.length);
  for (let i = 0; i < out.length; i++) {
    let [rest, place] = [i, 0];
    for (let k = count - 1; k >= 0; k--) {
      place += (rest % shape[k]) * step[order[k]];
      rest = Math.floor(rest / shape[k]);
    }
    out[i] = a.data[place];
  }
  return new Ndarray(out, shape, a.kind);
}

/** Axes padded with zeros or edges: `widths` has what goes before and after each. @param {Ndarray} a @param {number[]} widths @param {boolean} edge */
export function pad(a, widths, edge) {
  let found = a;
  for (let k = 0; k < a.shape.length; k++) {
    const { n } = along(found, k);
    const length = n + widths[2 * k] + widths[2 * k + 1];
    const numbers = Float64Array.from({ length }, (_, i) => Math.min(Math.max(i - widths[2 * k], 0), n - 1));
    const wide = taken(found, k, numbers, [length]);
    if (!edge) blank(wide, k, widths[2 * k], widths[2 * k] + n);
    found = wide;
  }
  return found;
}

/** Zeros outside a run of an axis. @param {Ndarray} a @param {number} axis @param {number} from @param {number} to */
function blank(a, axis, from, to) {
  const { outer, n, inner } = along(a, axis);
  for (let p = 0; p < outer; p++) {
    a.data.fill(0, p * n * inner, (p * n + from) * inner);
    a.data.fill(0, (p * n + to) * inner, (p + 1) * n * inner);
  }
}
