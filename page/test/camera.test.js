// Cameras: what they hold stays in sight, and gestures move what is under the fingers with them.

import assert from "node:assert/strict";
import { test } from "node:test";
import { axesOf, fittedCamera, orbited, panned, projected, rolled, sightLine, sized, zoomed } from "../src/geometry/camera.js";
import { add, cross, dot, minus, norm, times, turnedAbout } from "../src/geometry/vectors.js";
import { close, cubes, randoms } from "./support.js";

/** A camera that looks at a box from anywhere. */
function anyCamera(random) {
  const vector = () => [random() - 0.5, random() - 0.5, random() - 0.5];
  const axes = axesOf(vector(), vector());
  return { points: cubes(vector(), 10 + 90 * random()), axes, width: 200 + 800 * random(), height: 200 + 800 * random() };
}

test("axes are square to one another, of length 1 and right-handed", () => {
  for (const random of randoms(50)) {
    const { right, up, toward } = anyCamera(random).axes;
    close([norm(right), norm(up), norm(toward)], [1, 1, 1]);
    close(cross(right, up), toward);
  }
});

test("a fitted camera holds all its points, and one of them nearly at an edge", () => {
  for (const random of randoms(50)) {
    const { points, axes, width, height } = anyCamera(random);
    const spots = points.map((point) => projected(fittedCamera(points, axes, width, height, 1), point));
    const shares = spots.map(([x, y]) => Math.max(Math.abs(2 * x / width - 1), Math.abs(2 * y / height - 1)));
    assert.ok(Math.max(...shares) < 0.87, "the margin is kept");
    assert.ok(Math.max(...shares) > 0.85, "the room is used");
  }
});

test("a line of sight goes through all that is shown at its pixel", () => {
  for (const random of randoms(50)) {
    const { points, axes, width, height } = anyCamera(random);
    const camera = fittedCamera(points, axes, width, height, 1);
    const { from, along } = sightLine(camera, 31, 57);
    for (const depth of [-40, 0, 40]) {
      const [x, y, toward] = projected(camera, add(from, times(along, depth)));
      close([x, y, toward], [31, 57, -depth]);
    }
  }
});

test("zooming keeps the point under the fingers where it is", () => {
  for (const random of randoms(50)) {
    const { points, axes, width, height } = anyCamera(random);
    const camera = fittedCamera(points, axes, width, height, 1);
    const [x, y] = [width * random(), height * random()];
    const { from } = sightLine(camera, x, y);
    const nearer = zoomed(camera, 1.7, [x - width / 2, y - height / 2]);
    close(projected(nearer, from).slice(0, 2), [x, y]);
    close([nearer.scale, nearer.halfWidth], [1.7 * camera.scale, width / 2 / nearer.scale]);
  }
});

test("zooming stops at its bounds", () => {
  const camera = sized({ ...axesOf([0, 0, 1], [0, 1, 0]), centre: [0, 0, 0], scale: 1 }, 100, 100);
  assert.equal(zoomed(camera, 1e9, [0, 0]).scale, 400);
  assert.equal(zoomed(camera, 1e-9, [0, 0]).scale, 0.02);
});

test("moving by pixels moves every place by them", () => {
  for (const random of randoms(20)) {
    const { points, axes, width, height } = anyCamera(random);
    const camera = fittedCamera(points, axes, width, height, 1);
    for (const point of points) {
      const [before, after] = [projected(camera, point), projected(panned(camera, 12, -5), point)];
      close(minus(after, before), [12, -5, 0]);
    }
  }
});

test("a drag across the whole box turns the model by half a turn, and there and back is where it was", () => {
  const camera = sized({ ...axesOf([0, 0, 1], [0, 1, 0]), centre: [0, 0, 0], scale: 1 }, 300, 200);
  close(orbited(camera, 200, 0).toward, [0, 0, -1]);
  const [there, back] = [orbited(camera, 37, 0), orbited(orbited(camera, 37, 0), -37, 0)];
  assert.ok(dot(there.toward, camera.toward) < 0.9);
  close(back.toward, camera.toward);
});

test("rolling turns the picture about the line of sight", () => {
  const camera = sized({ ...axesOf([0, 0, 1], [0, 1, 0]), centre: [0, 0, 0], scale: 1 }, 300, 200);
  const turned = rolled(camera, Math.PI / 2);
  close([...turned.right, ...turned.up, ...turned.toward], [0, 1, 0, -1, 0, 0, 0, 0, 1]);
});

test("turning about an axis keeps lengths and the axis, and four quarter turns are none", () => {
  for (const random of randoms(50)) {
    const { axes } = anyCamera(random);
    const v = [random(), random(), random()];
    close([norm(turnedAbout(v, axes.up, 2.2))], [norm(v)]);
    close(turnedAbout(axes.up, axes.up, 1), axes.up);
    close([0, 1, 2, 3].reduce((turned) => turnedAbout(turned, axes.up, Math.PI / 2), v), v);
  }
});
