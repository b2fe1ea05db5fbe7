// Packed bytes: what the Python side packs comes out again. What CRC-32 gives for "123456789" stands in its
// specification (ISO-HDLC, IEEE 802.3): cbf43926.

import assert from "node:assert/strict";
import { test } from "node:test";
import { deflateSync } from "node:zlib";
import { crc32, meshOf, strandsOf } from "../src/geometry/decode.js";
import { close, randoms } from "./support.js";

/** Whole numbers as the page's data have them: zigzag, byte planes, deflate, base64. */
function planed(values, planes) {
  const zigzag = values.map((value) => (value >= 0 ? 2 * value : -2 * value - 1));
  const bytes = Array.from({ length: planes }, (_, plane) => zigzag.map((value) => (value >>> (8 * plane)) & 255));
  return deflateSync(Uint8Array.from(bytes.flat())).toString("base64");
}

const differences = (values) => values.slice(1).map((value, i) => value - values[i]);

test("the check sum is CRC-32", () => {
  assert.equal(crc32("123456789"), 0xcbf43926);
  assert.equal(crc32(""), 0);
});

test("centre lines come out of their third differences", async () => {
  for (const random of randoms(10)) {
    const count = [9, 6];
    const lines = count.map((n) => [0, 1, 2].map(() => Array.from({ length: n }, () => Math.round(2000 * random() - 1000))));
    const steps = lines.flat().flatMap((line) => differences(differences(differences(line))));
    const record = {
      ...{ strands: 2, columns: 9, count, quantum: 0.02, planes: 2, station: [5, 0.5], packing: [[0, 1], [4, 0.6], [8, 0.6]] },
      first: lines.flat().map((line) => line.slice(0, 3)),
    };
    const made = await strandsOf(record, planed(steps, 2));
    for (const [k, n] of count.entries()) {
      for (let i = 0; i < 9; i++) {
        const wanted = lines[k].map((line) => 0.02 * line[Math.min(i, n - 1)]);
        close(made.points.subarray(3 * (9 * k + i), 3 * (9 * k + i + 1)), wanted);
      }
    }
    close(made.station, [5, 5.5, 6, 6.5, 7, 7.5, 8, 8.5, 9]);
    close(made.packing, [1, 0.9, 0.8, 0.7, 0.6, 0.6, 0.6, 0.6, 0.6]);
  }
});

test("a body comes out of its differences", async () => {
  const places = [0, 0, 0, 50, 0, 0, 0, 50, 0, 0, 0, 50];
  const faces = [0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3];
  const steps = places.map((value, i) => value - (places[i - 3] ?? 0));
  const record = { pointPlanes: 1, facePlanes: 1, quantum: 0.02 };
  const made = await meshOf(record, planed(steps, 1), planed([faces[0], ...differences(faces)], 1));
  close(made.points, places.map((value) => 0.02 * value), 1e-6);
  assert.deepEqual([...made.faces], faces);
});
