// The states of a picture: every way through them that a page can take, and none that hangs.

import assert from "node:assert/strict";
import { test } from "node:test";
import { OPENING, next } from "../src/picture/phases.js";
import { randoms } from "./support.js";

/** The phase and all deeds after some happenings. */
function after(happenings, phase = OPENING) {
  const deeds = [];
  for (const happening of happenings) {
    const found = next(phase, happening);
    phase = found.phase;
    deeds.push(...found.deeds);
  }
  return { phase, deeds };
}

const changed = { is: "changed", rest: 170 };
const whole = { is: "drawn", whole: true };
const part = { is: "drawn", whole: false };
const rested = { is: "rested", held: false, awaited: false };
const written = (turn, later = false) => ({ is: "written", turn, later });
const fine = (later = false) => [changed, whole, rested, written(1, later)];

test("from loading to the words, each deed once and in its order", () => {
  const { phase, deeds } = after(fine());
  assert.deepEqual(deeds, ["stop", "frame", "announce", "wait", "fine", "words"]);
  assert.equal(phase.name, "done");
});

test("a slow machine smooths the edges after the words", () => {
  const { phase, deeds } = after([...fine(true), rested]);
  assert.deepEqual(deeds.slice(-3), ["words", "wait longer", "smooth"]);
  assert.equal(phase.name, "done");
});

test("changes before the next frame ask for one frame alone", () => {
  assert.deepEqual(after([changed, changed, changed]).deeds, ["stop", "frame"]);
});

test("what arrives while another frame is due is drawn by it, and isn't lost", () => {
  const { phase, deeds } = after([changed, part, changed, changed, whole]);
  assert.equal(phase.name, "resting");
  assert.equal(deeds.filter((deed) => deed === "frame").length, 2);
});

test("a fine picture that a change has overtaken gets no words", () => {
  const { phase, deeds } = after([changed, whole, rested, changed, whole, rested, written(1)]);
  assert.equal(phase.name, "refining");
  assert.equal(deeds.includes("words"), false);
  assert.equal(next(phase, written(2)).phase.name, "done");
});

test("while a finger holds the picture it isn't drawn finely", () => {
  const { phase, deeds } = after([changed, whole, { ...rested, held: true }]);
  assert.equal(phase.name, "resting");
  assert.equal(deeds.includes("fine"), false);
});

test("a fine picture waits for what is still being made", () => {
  const { phase } = after([changed, whole, { ...rested, awaited: true }]);
  assert.equal(phase.name, "loading");
  assert.equal(after([changed, whole, rested, written(2)], phase).phase.name, "done");
});

test("the first whole picture of new data is announced, and only that", () => {
  const { phase } = after(fine());
  const again = after([changed, whole], phase);
  assert.equal(again.deeds.includes("announce"), false);
  const other = after([{ is: "renewed" }, changed, part, changed, whole], phase);
  assert.equal(other.deeds.filter((deed) => deed === "announce").length, 1);
  assert.equal(other.phase.ever, true);
});

test("a lost card ends everything until it is back", () => {
  for (const before of [[], [changed], [changed, whole], [changed, whole, rested], fine(), fine(true)]) {
    const { phase, deeds } = after([...before, { is: "lost" }]);
    assert.equal(phase.name, "lost");
    assert.deepEqual(deeds.slice(-2), ["stop", "bare"]);
    assert.deepEqual(after([changed, whole, rested, written(phase.turn), { is: "renewed" }], phase).deeds, []);
    const back = after([{ is: "restored" }, changed, whole, rested], phase);
    assert.deepEqual(back.deeds.slice(0, 3), ["refill", "stop", "frame"]);
    assert.equal(next(back.phase, written(back.phase.turn)).phase.name, "done");
  }
});

test("whatever happens, a change brings the picture to its end", () => {
  const all = [changed, whole, part, rested, { ...rested, awaited: true }, { is: "renewed" }, { is: "lost" }, { is: "restored" }];
  for (const random of randoms(200)) {
    const any = Array.from({ length: 12 }, () => all[Math.floor(all.length * random())]);
    const { phase } = after([...any, { is: "restored" }, changed, whole, rested]);
    assert.equal(next(phase, written(phase.turn)).phase.name, "done");
  }
});
