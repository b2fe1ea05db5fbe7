// What the plan and the drafts ask of numpy beyond sums and places: interpolation, search, products, least squares.

import { Ndarray, along, asArray, plain } from "./arrays.js";

/** @typedef {import("./arrays.js").Operand} Operand */

/** @param {Operand} x @param {Ndarray} xp @param {Ndarray} fp @param {number | null} left @param {number | null} right */
export function interp(x, xp, fp, left, right) {
  const a = asArray(x);
  const [u, v] = [xp.data, fp.data];
  const last = u.length - 1;
  const out = a.data.map((z) => {
    if (z < u[0]) return left ?? v[0];
    if (z > u[last]) return right ?? v[last];
    if (z === u[last]) return v[last];
    const k = above(u, z, true) - 1;
    return ((v[k + 1] - v[k]) / (u[k + 1] - u[k])) * (z - u[k]) + v[k];
  });
  return plain(new Ndarray(out, a.shape));
}

/** How many of the sorted values lie below z, or not above it. @param {Float64Array} sorted @param {number} z @param {boolean} right */
function above(sorted, z, right) {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (right ? sorted[middle] <= z : sorted[middle] < z) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** @param {Ndarray} sorted @param {Operand} x @param {boolean} right */
export function searchsorted(sorted, x, right) {
  const a = asArray(x);
  return plain(new Ndarray(a.data.map((z) => above(sorted.data, z, right)), a.shape, "i"));
}

/** @param {Ndarray} a @param {number} axis */
export function cumsum(a, axis) {
  const { outer, n, inner } = along(a, axis);
  const out = a.data.slice();
  for (let p = 0; p < outer; p++)
    {for (let i = 1; i < n; i++)
      {for (let q = 0; q < inner; q++) out[(p * n + i) * inner + q] += out[(p * n + i - 1) * inner + q];}}
  return new Ndarray(out, a.shape, a.kind === "b" ? "i" : a.kind);
}

/** @param {Ndarray} a */
export const sort = (a) => new Ndarray(a.data.slice().sort(), a.shape, a.kind);

/** @param {Ndarray} a @param {Ndarray} b */
export function matmul(a, b) {
  const [n, m] = [b.shape[0], b.shape[1] ?? 1];
  const rows = a.data.length / n;
  const out = new Float64Array(rows * m);
  for (let i = 0; i < rows; i++)
    {for (let j = 0; j < m; j++) {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += a.data[i * n + k] * b.data[k * m + j];
      out[i * m + j] = sum;
    }}
  return plain(new Ndarray(out, [...a.shape.slice(0, -1), ...b.shape.slice(1)]));
}

/** @param {Float64Array} x @param {Float64Array} y */
const dot = (x, y) => x.reduce((sum, value, i) => sum + value * y[i], 0);

/** Turns two columns so that they stand square to one another. @param {Float64Array[][]} pairs @param {number} cos @param {number} sin */
function turn(pairs, cos, sin) {
  for (const [x, y] of pairs)
    {for (let i = 0; i < x.length; i++) [x[i], y[i]] = [cos * x[i] - sin * y[i], sin * x[i] + cos * y[i]];}
}

/** Turns columns until all stand square (one-sided Jacobi); the same turns go into `kept`. @param {Float64Array[]} columns @param {Float64Array[]} kept */
function square(columns, kept) {
  for (let sweep = 0, turned = true; turned && sweep < 60; sweep++) {
    turned = false;
    for (let p = 0; p < columns.length; p++)
      {for (let q = p + 1; q < columns.length; q++) {
        const [x, y] = [columns[p], columns[q]];
        const [xx, yy, xy] = [dot(x, x), dot(y, y), dot(x, y)];
        if (xy === 0 || Math.abs(xy) <= 1e-16 * Math.sqrt(xx * yy)) continue;
        turned = true;
        const half = (yy - xx) / (2 * xy);
        const tan = (half < 0 ? -1 : 1) / (Math.abs(half) + Math.sqrt(1 + half * half));
        const cos = 1 / Math.sqrt(1 + tan * tan);
        turn([[x, y], [kept[p], kept[q]]], cos, cos * tan);
      }}
  }
}

/** The shortest x with the least |a x - b|; singular values below `rcond` of the greatest count as none. @param {Ndarray} a @param {Ndarray} b @param {number | null} rcond */
export function lstsq(a, b, rcond) {
  const [rows, n] = a.shape;
  const wide = rows < n;
  const [long, count] = wide ? [n, rows] : [rows, n];
  const value = (/** @type {number} */ i, /** @type {number} */ j) => (wide ? a.data[j * n + i] : a.data[i * n + j]);
  const numbers = [...Array(count).keys()];
  const columns = numbers.map((j) => new Float64Array(long).map((_, i) => value(i, j)));
  const kept = numbers.map((j) => new Float64Array(count).map((_, i) => +(i === j)));
  square(columns, kept);
  const singular = columns.map((column) => Math.sqrt(dot(column, column)));
  const least = (rcond ?? Number.EPSILON * Math.max(rows, n)) * Math.max(...singular);
  const x = new Float64Array(n);
  singular.forEach((length, j) => {
    if (length <= least) return;
    const [left, right] = wide ? [kept[j], columns[j]] : [columns[j], kept[j]];
    const share = dot(left, b.data) / length ** 2;
    for (let i = 0; i < n; i++) x[i] += share * right[i];
  });
  return new Ndarray(x, [n]);
}
