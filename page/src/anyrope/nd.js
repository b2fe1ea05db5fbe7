// The module `nd` of the page's Python: what its stand-ins call. Lists come as further arguments, or one by one.

import * as arrays from "./arrays.js";
import * as indexing from "./indexing.js";
import * as numerics from "./numerics.js";
import { formatted, group, matched } from "./text.js";

const { Ndarray, sizeOf, spread, unary, binary, reduce } = arrays;

/** @typedef {import("./arrays.js").Ndarray} Array */
/** @typedef {import("./arrays.js").Kind} Kind */
/** @typedef {import("./arrays.js").Operand} Operand */

/** MicroPython takes whole numbers for integers of 32 bits. @param {unknown} value */
function passable(value) {
  if (typeof value === "number" && Number.isInteger(value) && Math.abs(value) >= 2 ** 30) throw new Error(`${value} is too large`);
  return value;
}

/** @param {Array} a @param {Kind} kind */
const cast = (a, kind) => {
  const to = { f: (/** @type {number} */ x) => x, i: Math.trunc, b: (/** @type {number} */ x) => +(x !== 0) }[kind];
  return new Ndarray(a.data.map(to), a.shape, kind);
};

/** @param {number} start @param {number} stop @param {number} step @param {Kind} kind */
function arange(start, stop, step, kind) {
  const n = Math.max(0, Math.ceil((stop - start) / step));
  return new Ndarray(Float64Array.from({ length: n }, (_, i) => start + i * step), [n], kind);
}

/** @param {number} start @param {number} stop @param {number} n @param {boolean} end */
function linspace(start, stop, n, end) {
  const step = (stop - start) / (end ? n - 1 : n);
  const data = Float64Array.from({ length: n }, (_, i) => i * step + start);
  if (end && n > 1) data[n - 1] = stop;
  return new Ndarray(data, [n]);
}

/**
 * @param {import("./kernels.js").Kernels} kernels
 * @param {(name: string, array: Array) => void} give takes an array out: one that Python returns may be freed too early
 * @param {(share: number) => void} tell is told how far a settling is
 */
export const module = (kernels, give, tell) => ({
  give,
  tell,
  ...indexing,
  ...numerics,
  numbers: indexing.numbersOf,
  unary: (/** @type {string} */ name, /** @type {Operand} */ x) => passable(unary(name, x)),
  binary: (/** @type {string} */ name, /** @type {Operand} */ x, /** @type {Operand} */ y) => passable(binary(name, x, y)),
  reduce: (/** @type {string} */ name, /** @type {Operand} */ x, /** @type {number | null} */ axis) =>
    passable(reduce(name, x, axis)),
  at: (/** @type {Array} */ a, /** @type {number} */ axis, /** @type {number} */ i) => passable(indexing.at(a, axis, i)),
  begin: () => [],
  push: (/** @type {number[]} */ list, /** @type {number} */ value) => void list.push(value),
  values: (/** @type {number[]} */ list, /** @type {Kind} */ kind) =>
    new Ndarray(Float64Array.from(list, Number), [list.length], kind),
  full: (/** @type {number} */ value, /** @type {Kind} */ kind, /** @type {number[]} */ ...shape) =>
    new Ndarray(new Float64Array(sizeOf(shape)).fill(Number(value)), shape, kind),
  reshape: (/** @type {Array} */ a, /** @type {number[]} */ ...shape) => indexing.reshape(a, shape),
  pad: (/** @type {Array} */ a, /** @type {boolean} */ edge, /** @type {number[]} */ ...widths) =>
    indexing.pad(a, widths, edge),
  broadcast: (/** @type {Operand} */ x, /** @type {number[]} */ ...shape) => {
    const a = arrays.asArray(x);
    return new Ndarray(spread(a, shape).slice(), shape, a.kind);
  },
  update: (/** @type {Array} */ a, /** @type {Operand} */ x) => {
    const given = arrays.asArray(x);
    a.data.set(spread(given, a.shape));
  },
  cast,
  arange,
  linspace,
  length: (/** @type {Array} */ a, /** @type {number} */ axis) => a.shape.at(axis),
  axes: (/** @type {Array} */ a) => a.shape.length,
  size: (/** @type {Array} */ a) => a.data.length,
  kind: (/** @type {Array} */ a) => a.kind,
  value: (/** @type {Array} */ a) => a.data[0],
  kernel: kernels.call.bind(kernels),
  text: formatted,
  printable: (/** @type {string} */ text) => !/[\p{C}\p{Zl}\p{Zp}]|(?! )\p{Zs}/u.test(text),
  normal: (/** @type {string} */ form, /** @type {string} */ text) => text.normalize(form),
  seconds: () => performance.now() / 1000,
  matched,
  group,
  end: (/** @type {{ end: number }} */ match) => match.end,
});
