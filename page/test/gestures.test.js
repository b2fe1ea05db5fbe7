// Fingers: what one of two does, strokes, taps that slip.

import assert from "node:assert/strict";
import { test } from "node:test";
import { axesOf, handled, projected, sightLine, sized } from "../src/geometry/camera.js";
import { pinched, slipped, stroke, wheeled } from "../src/geometry/gestures.js";
import { close, randoms } from "./support.js";

test("what lies under two fingers follows them", () => {
  for (const random of randoms(50)) {
    const camera = sized({ ...axesOf([random(), random(), 1], [0, 1, 0]), centre: [0, 0, 0], scale: 2 }, 400, 300);
    const sides = [[100 + 80 * random(), 150], [250 + 80 * random(), 100 + 90 * random()]];
    const [from, other] = random() < 0.5 ? sides : sides.reverse();
    const to = [from[0] + 20 * random() - 10, from[1] + 20 * random() - 10];
    const under = [from, other].map(([x, y]) => sightLine(camera, x, y).from);
    const { middle, ...way } = pinched(from, to, other);
    const moved = handled(camera, way, [middle[0] - 200, middle[1] - 150]);
    const spots = under.map((place) => projected(moved, place).slice(0, 2));
    close(spots.flat(), [...to, ...other], 1e-6);
  }
});

test("two fingers that change places turn nothing", () => {
  assert.equal(pinched([0, 0], [200, 10], [100, 0]).turn, 0);
});

test("a finger may slip a little and still tap", () => {
  assert.equal(slipped([10, 10], [14, 14]), false);
  assert.equal(slipped([10, 10], [18, 10]), true);
});

test("a stroke to the left goes on, one to the right goes back, others do nothing", () => {
  assert.equal(stroke([200, 100], [120, 110]), 1);
  assert.equal(stroke([120, 100], [200, 90]), -1);
  assert.equal(stroke([200, 100], [150, 100]), 0);
  assert.equal(stroke([200, 100], [120, 160]), 0);
});

test("the wheel there and back is where it was, and a wild one is held", () => {
  close([wheeled(100) * wheeled(-100)], [1]);
  assert.equal(wheeled(1e6), wheeled(200));
  assert.ok(wheeled(-100) > 1);
});
