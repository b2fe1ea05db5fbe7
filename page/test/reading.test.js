// Reading aloud: what is said when, and that it ends.

import assert from "node:assert/strict";
import { test } from "node:test";
import { SILENT, nextReading } from "../src/words/reading.js";

/** The deeds of a reading, and where it is in the end. */
function after(happenings, sentences = 3) {
  let reading = SILENT;
  const deeds = happenings.map((happening) => {
    const found = nextReading(reading, happening, sentences);
    reading = found.reading;
    return found.deed === "say" ? reading.at : found.deed;
  });
  return { reading, deeds };
}

const start = (pause) => ({ is: "start", pause });
const [said, waited, stop, moved] = ["said", "waited", "stop", "moved"].map((is) => ({ is }));

test("a step is read to its end", () => {
  const { reading, deeds } = after([start(0), said, waited, said, waited, said]);
  assert.deepEqual(deeds, [0, "wait", 1, "wait", 2, "hush"]);
  assert.equal(reading, SILENT);
});

test("with a pause it goes on to the next step, and reads that from its title", () => {
  const { reading, deeds } = after([start(15), said, waited, said, waited, said, waited, moved, said]);
  assert.deepEqual(deeds, [0, "wait", 1, "wait", 2, "wait", "go on", 0, "wait"]);
  assert.equal(reading.pause, 15);
});

test("who goes on by hand hears the new step", () => {
  assert.deepEqual(after([start(0), said, moved]).deeds, [0, "wait", 0]);
  assert.deepEqual(after([start(0), moved, said]).deeds, [0, 0, "wait"]);
});

test("stopped is stopped, whatever is still on its way", () => {
  const { reading, deeds } = after([start(15), stop, said, waited, moved]);
  assert.deepEqual(deeds, [0, "hush", "none", "none", "none"]);
  assert.equal(reading, SILENT);
});
