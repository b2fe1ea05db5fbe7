// Motion between two states: it begins and ends with the states themselves, and the rope keeps its length on the way.

import assert from "node:assert/strict";
import { test } from "node:test";
import { morphOf, morphed } from "../src/geometry/morph.js";
import { atMoment, stretchAt } from "../src/geometry/way.js";
import { tubesOf } from "../src/geometry/tubes.js";
import { minus, norm, turnedAbout, turnedUp } from "../src/geometry/vectors.js";
import { close } from "./support.js";

const [STRANDS, RAYS, STEP] = [4, 6, 2];

/** Tubes of a rope whose middle and the directions along, aside and up are given by column. */
function tubes(n, start, at) {
  const [centres, tangents, axis] = [new Float64Array(3 * STRANDS * n), new Float64Array(3 * STRANDS * n), new Float64Array(3 * n)];
  const rings = new Float32Array(3 * STRANDS * n * RAYS);
  for (let i = 0; i < n; i++) {
    const { middle, along, aside, up } = at(i);
    axis.set(middle, 3 * i);
    for (let k = 0; k < STRANDS; k++) {
      const turn = 0.4 * (i + start) + (2 * Math.PI * k) / STRANDS;
      const mix = (a, b) => [0, 1, 2].map((c) => a * aside[c] + b * up[c]);
      const centre = mix(4 * Math.cos(turn), 4 * Math.sin(turn)).map((x, c) => x + middle[c]);
      centres.set(centre, 3 * (k * n + i));
      tangents.set(along, 3 * (k * n + i));
      for (let ray = 0; ray < RAYS; ray++) {
        const angle = (2 * Math.PI * ray) / RAYS;
        const off = mix(1.5 * Math.cos(angle), 1.5 * Math.sin(angle));
        rings.set(off.map((x, c) => x + centre[c]), 3 * ((k * n + i) * RAYS + ray));
      }
    }
  }
  const station = Float64Array.from({ length: n }, (_, i) => STEP * (i + start));
  const count = Int32Array.from({ length: STRANDS }, () => n);
  const whole = { strands: STRANDS, n, rays: RAYS, rings, centres, tangents, axis, station, count, refine: 1, thickness: station };
  return tubesOf({ strands: STRANDS }, whole);
}

const straight = (n, start = 0) =>
  tubes(n, start, (i) => ({ middle: [STEP * (i + start), 0, 0], along: [1, 0, 0], aside: [0, 1, 0], up: [0, 0, 1] }));

/** The same rope led round a circle in the level plane, by an angle in all. */
const led = (n, all) =>
  tubes(n, 0, (i) => {
    const [radius, angle] = [(STEP * (n - 1)) / all, (all * i) / (n - 1)];
    const turn = (v) => turnedUp(v, angle);
    return {
      middle: [radius * Math.sin(angle), radius * (1 - Math.cos(angle)), 0],
      along: turn([1, 0, 0]), aside: turn([0, 1, 0]), up: [0, 0, 1],
    };
  });

function shapeAt(morph, share) {
  const [vertices, axis] = [new ArrayBuffer(morph.a.vertices.byteLength), new Float32Array(3 * morph.a.n)];
  morphed(morph, share, vertices, axis);
  return { places: new Float32Array(vertices).filter((_, i) => i % 5 < 3), axis };
}

const placesOf = ({ vertices }) => new Float32Array(vertices).filter((_, i) => i % 5 < 3);
const point = (values, i) => Array.from(values.subarray(3 * i, 3 * i + 3));

test("it begins with the one state and ends with the other", () => {
  const [a, b] = [straight(40), led(40, 5)];
  const morph = morphOf(a, b, 0);
  close(shapeAt(morph, 0).places, placesOf(a), 1e-4);
  close(shapeAt(morph, 1).places, placesOf(b), 1e-3);
});

test("the rope keeps its length and its thickness on the way, even where it is led round by more than half a turn", () => {
  const morph = morphOf(straight(60), led(60, 5), 0);
  for (const share of [0.2, 0.5, 0.8]) {
    const { places, axis } = shapeAt(morph, share);
    for (let i = 0; i < 59; i++) {
      const step = norm(minus(point(axis, i + 1), point(axis, i)));
      assert.ok(Math.abs(step - STEP) < 0.02 * STEP, `${share} ${i}: ${step}`);
      const off = norm(minus(point(places, i * RAYS), point(axis, i)));
      assert.ok(off > 2.4 && off < 5.6, `${share} ${i}: ${off}`);
    }
  }
});

test("half the way round a half circle is a quarter of a circle", () => {
  const { axis } = shapeAt(morphOf(straight(80), led(80, Math.PI), 0), 0.5);
  const ends = [minus(point(axis, 1), point(axis, 0)), minus(point(axis, 79), point(axis, 78))];
  const turned = Math.acos(ends[0].reduce((sum, x, c) => sum + x * ends[1][c], 0) / norm(ends[0]) / norm(ends[1]));
  assert.ok(Math.abs(turned - Math.PI / 2) < 0.05, String(turned));
});

test("a table that is turned is turned before the motion begins", () => {
  const a = straight(30);
  const morph = morphOf(a, a, 0.7);
  close(shapeAt(morph, 0).places.subarray(0, 3), turnedUp(point(placesOf(a), 0), 0.7), 1e-4);
  close(shapeAt(morph, 1).places, placesOf(a), 1e-3);
  assert.deepEqual(turnedAbout([1, 0, 0], [0, 0, 1], 0), [1, 0, 0]);
});

test("each state's table is turned by an angle of its own", () => {
  const [a, b] = [straight(30), led(30, 1)];
  const morph = morphOf(a, b, 0.7, -0.4);
  close(shapeAt(morph, 0).places.subarray(60, 63), turnedUp(point(placesOf(a), 20), 0.7), 1e-3);
  close(shapeAt(morph, 1).places.subarray(60, 63), turnedUp(point(placesOf(b), 20), -0.4), 1e-3);
});

test("a rope that comes to a whole turn though it lies nearly as before rolls about itself and isn't swung round", () => {
  const [n, bend] = [60, 0.35];
  const curled = tubes(n, 0, (i) => {
    const [radius, angle] = [(STEP * (n - 1)) / bend, (bend * i) / (n - 1)];
    const along = turnedUp([1, 0, 0], angle);
    const roll = (v) => turnedAbout(turnedUp(v, angle), along, (2 * Math.PI * i) / (n - 1));
    return { middle: [radius * Math.sin(angle), radius * (1 - Math.cos(angle)), 0], along, aside: roll([0, 1, 0]), up: roll([0, 0, 1]) };
  });
  const morph = morphOf(straight(n), curled, 0);
  close(shapeAt(morph, 0).places, placesOf(straight(n)), 1e-4);
  close(shapeAt(morph, 1).places, placesOf(curled), 1e-2);
  for (const share of [0.25, 0.5, 0.75]) {
    const { axis } = shapeAt(morph, share);
    const way = minus(point(axis, n - 1), point(axis, n - 2));
    assert.ok(way[0] > 0.9 * norm(way), `${share}: ${way}`);
  }
});

test("a way's stretches are even, and its last state is the end of the last of them", () => {
  assert.deepEqual(stretchAt(0, 3), { at: 0, share: 0 });
  assert.deepEqual(stretchAt(0.25, 3), { at: 0, share: 0.5 });
  assert.deepEqual(stretchAt(0.5, 3), { at: 1, share: 0 });
  assert.deepEqual(stretchAt(1, 3), { at: 1, share: 1 });
  assert.deepEqual(stretchAt(0.3, 2), { at: 0, share: 0.3 });
});

test("a handle beside a settled moment goes to it, and stays where it is elsewhere", () => {
  assert.equal(atMoment(0.49, 3), 0.5);
  assert.equal(atMoment(0.4, 3), 0.4);
  assert.equal(atMoment(0.995, 2), 1);
});

test("a rope that reaches further in the second state is shown as far as in the first", () => {
  const [a, b] = [straight(20, 5), straight(40)];
  close(shapeAt(morphOf(a, b, 0), 1).places, placesOf(a), 1e-3);
});
