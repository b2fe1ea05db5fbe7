// What the tests share: numbers compared, and the same odd numbers in every run.

import assert from "node:assert/strict";

/** Every number within `most` of its fellow, more for large ones. */
export function close(found, wanted, most = 1e-9) {
  assert.equal(found.length, wanted.length);
  for (let i = 0; i < found.length; i++) {
    const room = most * Math.max(1, Math.abs(wanted[i]));
    assert.ok(Math.abs(found[i] - wanted[i]) <= room, `${i}: ${found[i]} isn't ${wanted[i]}`);
  }
}

/** Sources of numbers between 0 and 1, each of its own seed (a linear congruence modulo 2^32). */
export function* randoms(number) {
  for (let seed = 1; seed <= number; seed++) {
    let state = seed * 2654435761;
    yield () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 32;
    };
  }
}

/** The corners of a box round a middle. */
export function cubes([x, y, z], size) {
  const sides = [-size / 2, size / 2];
  return sides.flatMap((a) => sides.flatMap((b) => sides.map((c) => [x + a, y + 2 * b, z + c / 2])));
}
