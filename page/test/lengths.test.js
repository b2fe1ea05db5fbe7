// Lengths as they are typed and shown, what was measured against the plan, and its file. An inch is 25.4 mm (ISO 80000-3,
// and the international yard and pound agreement of 1959).

import assert from "node:assert/strict";
import { test } from "node:test";
import { lengthIn, lengthShown } from "../src/lengths.js";
import { measuredFile, standing } from "../src/words/measuring.js";
import { close, randoms } from "./support.js";

test("lengths are read with their unit, or in the job's", () => {
  const read = [
    ...[["718", "mm", 718], ["718,5 mm", "in", 718.5], ["71.8 cm", "mm", 718], ["0.718 m", "in", 718]],
    ...[["2", "in", 50.8], ["28 1/4", "in", 717.55], ["1/64 in", "mm", 0.396875], ['3 1/2"', "mm", 88.9], [" 5 ", "mm", 5]],
  ];
  for (const [text, unit, mm] of read) close([lengthIn(text, unit)], [mm]);
});

test("what isn't a positive length is none", () => {
  for (const text of ["", "0", "-3", "mm", "3 feet", "1/0", "3 4", "1e3", "3 mm 4", "NaN", "½"]) {
    assert.ok(Number.isNaN(lengthIn(text, "mm")), text);
  }
});

test("shown inches are read again to the nearest 64th", () => {
  for (const random of randoms(100)) {
    const mm = 0.5 + 900 * random();
    const shown = lengthShown(mm, "in").replace(/ \(.*/, "");
    assert.ok(Math.abs(lengthIn(shown, "in") - mm) <= 25.4 / 128 + 1e-9, shown);
  }
});

test("a bury may be longer than planned, and shorter by no more than is allowed", () => {
  const bury = { name: "bury", label: "bury", planned: 720, least: -5, most: null, why: "" };
  assert.deepEqual(standing(bury, 800), { off: 80, within: true });
  assert.equal(standing(bury, 715).within, true);
  assert.equal(standing(bury, 714.9).within, false);
  assert.equal(standing({ ...bury, most: 5 }, 726).within, false);
});

test("the file of measurements holds lengths in mm, the day, and nothing of the job's name but words", () => {
  const text = measuredFile({ bury: 717.5499, eye_length: 98 }, 'a "stay"\n[measured]', new Date(2026, 2, 5));
  const lines = text.split("\n");
  assert.deepEqual(lines.slice(1), [
    '# Job: a "stay" [measured]', "schema = 1", "", "[measured]", "date = 2026-03-05", 'bury = "717.55 mm"', 'eye_length = "98 mm"', "",
  ]);
});
