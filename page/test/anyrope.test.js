// Arrays and numbers of the page's Python: exact arithmetic, and what Python 3 writes (its documentation's rules).

import assert from "node:assert/strict";
import { test } from "node:test";
import { Ndarray, binary, reduce, unary } from "../src/anyrope/arrays.js";
import { concatenate, flatnonzero, moveAxis, numbersOf, pad, pick, put, reshape, slice } from "../src/anyrope/indexing.js";
import { cumsum, interp, lstsq, searchsorted } from "../src/anyrope/numerics.js";
import { formatted, group, matched } from "../src/anyrope/text.js";
import { close, randoms } from "./support.js";

const row = (...values) => new Ndarray(Float64Array.from(values), [values.length]);
const table = (n, ...values) => new Ndarray(Float64Array.from(values), [values.length / n, n]);

test("shapes go together from their last axes, and others are refused", () => {
  const sum = binary("add", table(3, 1, 2, 3, 4, 5, 6), row(10, 20, 30));
  assert.deepEqual([[...sum.data], sum.shape], [[11, 22, 33, 14, 25, 36], [2, 3]]);
  const outer = binary("sub", table(1, 1, 2), row(10, 20, 30));
  assert.deepEqual([[...outer.data], outer.shape], [[-9, -19, -29, -8, -18, -28], [2, 3]]);
  assert.throws(() => binary("add", row(1, 2), row(1, 2, 3)), /don't go together/);
  assert.equal(binary("lt", 1, 2), true);
});

test("runs are taken as Python takes them", () => {
  const a = row(0, 1, 2, 3, 4);
  const taken = (...ends) => [...slice(a, 0, ...ends).data];
  assert.deepEqual(taken(1, -1, null), [1, 2, 3]);
  assert.deepEqual(taken(null, null, -1), [4, 3, 2, 1, 0]);
  assert.deepEqual(taken(-2, null, null), [3, 4]);
  assert.deepEqual(taken(3, 99, null), [3, 4]);
  assert.deepEqual(taken(4, 2, null), []);
});

test("what is put at places taken from numbers comes to lie there", () => {
  const a = table(3, 0, 0, 0, 0, 0, 0);
  put(a, slice(numbersOf(a), 1, 1, null, null), 7);
  assert.deepEqual([...a.data], [0, 7, 7, 0, 7, 7]);
  const chosen = pick(a, 0, binary("gt", a, 1));
  assert.deepEqual([...chosen.data], [7, 7, 7, 7]);
  assert.deepEqual([...flatnonzero(row(0, 2, 0, 1)).data], [1, 3]);
});

test("axes are reduced, moved, joined and padded", () => {
  const a = table(3, 1, 2, 3, 4, 5, 6);
  assert.deepEqual([...reduce("sum", a, 0).data], [5, 7, 9]);
  assert.deepEqual([...reduce("max", a, -1).data], [3, 6]);
  assert.equal(reduce("argmin", row(3, 1, 1), null), 1);
  assert.throws(() => reduce("max", row(), null), /no values/);
  assert.deepEqual([...moveAxis(a, 0, 1).data], [1, 4, 2, 5, 3, 6]);
  assert.deepEqual([...concatenate(1, a, a).data], [1, 2, 3, 1, 2, 3, 4, 5, 6, 4, 5, 6]);
  assert.deepEqual([...pad(row(1, 2), [1, 2], true).data], [1, 1, 2, 2, 2]);
  assert.deepEqual([...pad(row(1, 2), [1, 2], false).data], [0, 1, 2, 0, 0]);
  assert.deepEqual(reshape(a, [-1, 2]).shape, [3, 2]);
  assert.deepEqual([...cumsum(row(1, 2, 3), 0).data], [1, 3, 6]);
});

test("ties are rounded to even", () => {
  assert.deepEqual([...unary("rint", row(0.5, 1.5, 2.5, -0.5, -1.5, 2.4)).data.map((x) => x + 0)], [0, 2, 2, 0, -2, 2]);
});

test("between known places lies the straight line, beyond them what is asked for", () => {
  const at = (z, ...ends) => interp(z, row(0, 1, 3), row(0, 10, 30), ends[0] ?? null, ends[1] ?? null);
  assert.deepEqual([at(0.5), at(2), at(-1), at(9), at(-1, 5), at(9, null, 6)], [5, 20, 0, 30, 5, 6]);
  assert.deepEqual([searchsorted(row(1, 2, 2, 3), 2, false), searchsorted(row(1, 2, 2, 3), 2, true)], [1, 3]);
});

test("least squares leave a rest that stands square to every column, and the shortest answer", () => {
  for (const random of randoms(20)) {
    for (const [rows, n] of [[5, 3], [3, 5]]) {
      const values = Float64Array.from({ length: rows * n }, () => random() - 0.5);
      const b = Float64Array.from({ length: rows }, () => random() - 0.5);
      const x = lstsq(new Ndarray(values, [rows, n]), new Ndarray(b, [rows]), null).data;
      const rest = b.map((value, i) => value - x.reduce((sum, one, j) => sum + values[i * n + j] * one, 0));
      const square = Array.from({ length: n }, (_, j) => rest.reduce((sum, one, i) => sum + one * values[i * n + j], 0));
      close(square, new Array(n).fill(0), 1e-12);
    }
  }
  close(lstsq(table(2, 1, 1), row(2), null).data, [1, 1]);
});

test("numbers are written as Python writes them", () => {
  const cases = [
    [0.5, ".0f", "0"], [1.5, ".0f", "2"], [2.5, ".0f", "2"], [2.675, ".2f", "2.67"], [0.125, ".2f", "0.12"],
    [-0.125, ".2f", "-0.12"], [1234.5, ".4g", "1234"], [123456789, "g", "1.23457e+08"], [0.00001234, ".3g", "1.23e-05"],
    [100, "g", "100"], [0.25, ".1%", "25.0%"], [0.1235, ".1%", "12.3%"], [3, "+.1f", "+3.0"], [1234567.5, ",.1f", "1,234,567.5"],
    [3.14159, "8.3f", "   3.142"], [Infinity, ".2f", "inf"], [12345, ".2e", "1.23e+04"],
  ]; // prettier-ignore
  for (const [value, form, text] of cases) assert.equal(formatted(value, form), text, `${value} ${form}`);
});

test("patterns match here, anywhere or the whole", () => {
  assert.equal(matched("b", "abc", 0, "here"), null);
  assert.equal(matched("b", "abc", 1, "here").end, 2);
  assert.equal(matched("b", "abc", 0, "anywhere").end, 2);
  assert.equal(matched("ab", "abc", 0, "whole"), null);
  assert.equal(group(matched("(?<n>\\d+)", "x12", 0, "anywhere"), "n"), "12");
});
