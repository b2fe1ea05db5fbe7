// Near views: which places share one, and which come first.

import assert from "node:assert/strict";
import { test } from "node:test";
import { clustersOf } from "../src/picture/insets.js";

const place = (letter, x) => ({ letter, at: [x, 0, 0] });
const letters = (clusters) => clusters.map(({ places }) => places.map(({ letter }) => letter).join(""));

test("places within nine diameters of one another share a view", () => {
  assert.deepEqual(letters(clustersOf([place("A", 0), place("B", 80), place("C", 160), place("D", 400)], 10)), ["ABC", "D"]);
});

test("those with more letters come first, words alone last", () => {
  assert.deepEqual(letters(clustersOf([place("", 0), place("A", 300), place("B", 600), place("C", 610)], 10)), ["BC", "A", ""]);
});

test("a view holds its places with rope beside them, and never less than seven diameters", () => {
  const [two, one] = clustersOf([place("A", 0), place("B", 80), place("C", 900)], 10);
  assert.equal(two.middle[0], 40);
  assert.ok(two.span / 2 >= 40 + 20);
  assert.equal(one.span, 70);
});
