// Numbers on the strands of opened places: each slides along its own strand to where that shows and can be read.

import { numberAt } from "../card/numbers.js";
import { cssColour, drawing } from "../dom.js";
import { projected } from "../geometry/camera.js";
import { clamp } from "../geometry/vectors.js";
import { ropeIn } from "../store.js";

/** @import { App, Camera, ChipRecord, Line, Lines, Picture, Room, Rope, Spot, TonedRecord, Vector } from "../types" */

const CHIP = 9; // CSS pixels, radius of a number's disc
const LEAST_CHIP = 6.5; // the same where strands are drawn narrow
const SLIDES = [0.1, -0.1, 0.24, -0.24, 0.38, -0.38, 0.5, -0.5]; // places tried, in half lengths of the opened place
const READABLE = 38; // CSS pixels to a rope diameter below which no number is drawn

/**
 * Draws a picture's numbers, clear of one another and, where that can be, of the labels' leaders.
 * @param {App} app
 * @param {Picture} picture
 * @param {number} i
 * @param {Room} room
 */
export function drawNumbers(app, picture, i, room) {
  const camera = app.cameras[i];
  const rope = ropeIn(app.store, picture.state, false);
  const wide = camera.scale * app.data.diameter;
  if (!rope || wide < READABLE || app.choices.cut.way !== "off") return;
  const radius = clamp(wide * 0.12, LEAST_CHIP, CHIP);
  const set = [];
  for (const [opening, toned] of picture.paint.toned.entries()) {
    const chips = picture.chips.filter((chip) => chip.opening === opening);
    const seen = strandsSeen(rope, camera, toned);
    for (const chip of chips) {
      const spot = chipSpot(room, { chip, seen, set, radius });
      if (!spot) continue;
      set.push(spot);
      drawChip(app, [room.left + spot[0], room.top + spot[1]], chip, radius);
    }
  }
}

/**
 * Where the strands' middles lie on the picture, at every slide of an opened place and at columns between.
 * @param {Rope} rope
 * @param {Camera} camera
 * @param {TonedRecord} toned
 * @returns {Lines}
 */
function strandsSeen(rope, camera, { host, half }) {
  const step = rope.station[1] - rope.station[0];
  const at = (/** @type {number} */ station) => clamp(Math.round((station - rope.station[0]) / step), 0, rope.n - 1);
  const [first, last] = [at(host - half), at(host + half)];
  const columns = Array.from({ length: last - first + 1 }, (_, c) => first + c);
  const floats = new Float32Array(rope.vertices);
  const lines = Array.from({ length: rope.strands }, (_, k) =>
    columns.map((column) => projected(camera, ringMiddle(rope, floats, k, column))),
  );
  return { lines, column: (slide) => at(host + slide * half) - first };
}

/**
 * The middle of strand k's ring in a column.
 * @param {Rope} rope
 * @param {Float32Array} floats
 * @param {number} k
 * @param {number} column
 * @returns {Vector}
 */
function ringMiddle({ n, rays }, floats, k, column) {
  /** @type {Vector} */
  const sum = [0, 0, 0];
  for (let ray = 0; ray < rays; ray++) {
    const at = 5 * ((k * n + column) * rays + ray);
    for (let c = 0; c < 3; c++) sum[c] += floats[at + c] / rays;
  }
  return sum;
}

/**
 * The first place on a number's strand that shows, clear of leaders if there is one; null where none shows.
 * @param {Room} room
 * @param {{ chip: ChipRecord, seen: Lines, set: Spot[], radius: number }} wanted
 * @returns {Spot | null}
 */
function chipSpot(room, { chip, seen, set, radius }) {
  const spots = SLIDES.map((slide) => seen.lines[chip.strand][seen.column(slide)]).filter(([x, y]) => {
    const inside = x > radius && y > radius && x < room.width - radius && y < room.height - radius;
    return inside && set.every(([u, v]) => Math.hypot(x - u, y - v) > 2 * radius + 1);
  });
  const open = spots.filter((spot) => !isCovered(seen.lines, chip.strand, spot, radius));
  const clear = open.filter(([x, y]) => room.leaders.every((leader) => awayFrom(leader, [x, y]) > radius + 1));
  const shows = (/** @type {Vector} */ [x, y]) => numberAt(room.numbers, x, y)?.strand === chip.strand;
  const found = clear.find(shows) || open.find(shows);
  return found ? [found[0], found[1]] : null;
}

/**
 * Whether another strand's middle lies before a spot.
 * @param {Vector[][]} lines
 * @param {number} own
 * @param {Vector} spot
 * @param {number} radius
 */
function isCovered(lines, own, [x, y, depth], radius) {
  const before = (/** @type {Vector} */ [u, v, w]) => w > depth && Math.hypot(x - u, y - v) < 0.6 * radius;
  return lines.some((line, k) => k !== own && line.some(before));
}

/**
 * How far a spot lies from a line's nearest point.
 * @param {Line} line
 * @param {Spot} spot
 */
function awayFrom([[x0, y0], [x1, y1]], [x, y]) {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const along = clamp(((x - x0) * dx + (y - y0) * dy) / Math.max(dx * dx + dy * dy, 1e-9), 0, 1);
  return Math.hypot(x - x0 - along * dx, y - y0 - along * dy);
}

/**
 * @param {App} app
 * @param {Spot} spot
 * @param {ChipRecord} chip
 * @param {number} radius
 */
function drawChip(app, [x, y], { words, colour }, radius) {
  const text = drawing("text", { x, y: y + 0.42 * radius, class: "chip-text", "font-size": 1.33 * radius });
  text.textContent = words;
  app.over.append(drawing("circle", { cx: x, cy: y, r: radius, class: "chip", fill: cssColour(colour) }), text);
}
