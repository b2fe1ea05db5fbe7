// Words and numbers over the picture: letters at marks with leaders, never on the rope nor on one another.

import { numberAt } from "../card/numbers.js";
import { drawing, element } from "../dom.js";
import { projected } from "../geometry/camera.js";
import { clamp, dot, turnedUp } from "../geometry/vectors.js";
import { ropeIn } from "../store.js";
import { drawNumbers } from "./chips.js";
import { insetsFor, setInset } from "./insets.js";
import { drawMeasured } from "./measure.js";
import { cutOf } from "./stage.js";

/**
 * @import {
 *   App, Arranged, Box, Label, Line, Picture, Room, Rope, Space, Spot, Vector, Wanted, Written,
 * } from "../types"
 */

const CELL = 4; // CSS pixels to a cell of the map of what is drawn
const APART = 6; // CSS pixels kept clear round words
const NEAR = 180; // CSS pixels round a spot in which room is looked for first
const FARTHEST = 130; // CSS pixels from a place that has no letter beyond which words are left out
const CLOSE = 30; // CSS pixels from their places beyond which, on the average, other ways to set words are tried
const LEANS = [-1, 1]; // words rather to the left of their places, or to the right
const SHORTER = 300; // CSS pixels that a letter without its words is as bad as
const WITHOUT = 900; // the same for words that find no room at all

/**
 * Takes the words off while the picture moves; keeps what is measured in its place.
 * @param {App} app
 * @param {boolean} there
 */
export function clearOver(app, there) {
  app.labels.replaceChildren();
  app.over.replaceChildren();
  drawGhost(app);
  if (there) drawMeasured(app);
}

/**
 * Words and numbers over a picture that rests. numbers: of what is drawn, by panel.
 * @param {App} app
 * @param {Written[]} numbers
 */
export function drawOver(app, numbers) {
  clearOver(app, true);
  app.pictures.forEach((picture, i) => {
    if (!picture.views || app.motion < 1) return;
    const room = roomOf(app, i, /** @type {Written} */ (numbers.shift()));
    drawLabels(app, picture, i, room);
    if (app.choices.numbers) drawNumbers(app, picture, i, room);
  });
}

/**
 * A map of the free room in panel i: what is drawn, and the corner where buttons lie, are taken.
 * @param {App} app
 * @param {number} i
 * @param {Written} numbers
 * @returns {Room}
 */
function roomOf(app, i, numbers) {
  const [left, top, width, height] = app.boxes[i];
  const [across, down] = [Math.ceil(width / CELL), Math.ceil(height / CELL)];
  const drawn = drawnCells(numbers, across, down);
  const sums = new Int32Array((across + 1) * (down + 1));
  for (let y = 0; y < down; y++) {
    for (let x = 0; x < across; x++) {
      const at = (y + 1) * (across + 1) + x + 1;
      sums[at] = drawn[y * across + x] + sums[at - 1] + sums[at - across - 1] - sums[at - across - 2];
    }
  }
  return { left, top, width, height, across, down, sums, numbers, boxes: buttonBoxes(app, left, top), leaders: [] };
}

/**
 * 1 where something is drawn in a cell of a panel, or in one beside it.
 * @param {Written} written
 * @param {number} across
 * @param {number} down
 */
function drawnCells({ width, height, bytes }, across, down) {
  const cells = new Uint8Array(across * down);
  for (let y = 0; y < height; y++) {
    const row = across * Math.min(Math.floor((height - 1 - y) / CELL), down - 1);
    for (let x = 0; x < width; x++) {
      const at = 4 * (y * width + x);
      if (bytes[at] || bytes[at + 3]) cells[row + Math.floor(x / CELL)] = 1;
    }
  }
  return grown(cells, across, down);
}

/**
 * @param {Uint8Array} cells
 * @param {number} across
 * @param {number} down
 */
function grown(cells, across, down) {
  const out = cells.slice();
  for (let at = 0; at < cells.length; at++) {
    if (!cells[at]) continue;
    const [x, y] = [at % across, Math.floor(at / across)];
    if (x > 0) out[at - 1] = 1;
    if (x < across - 1) out[at + 1] = 1;
    if (y > 0) out[at - across] = 1;
    if (y < down - 1) out[at + across] = 1;
  }
  return out;
}

/**
 * Boxes of what else lies over the picture: buttons, and which side is which.
 * @param {App} app
 * @param {number} left
 * @param {number} top
 * @returns {Box[]}
 */
function buttonBoxes({ canvas, covers }, left, top) {
  const origin = canvas.getBoundingClientRect();
  return covers.flatMap((cover) => [...cover.children]).filter((cover) => /** @type {HTMLElement} */ (cover).offsetParent !== null).map((cover) => {
    const box = cover.getBoundingClientRect();
    const [x, y] = [box.left - origin.left - left, box.top - origin.top - top];
    return [x, y, x + box.width, y + box.height];
  });
}

/**
 * Number of drawn cells in a box of CSS pixels of the panel.
 * @param {Room} room
 * @param {Box} box
 */
function drawnIn({ sums, across, down }, [x0, y0, x1, y1]) {
  const [a, b] = [clamp(Math.floor(x0 / CELL), 0, across), clamp(Math.ceil(x1 / CELL), 0, across)];
  const [c, d] = [clamp(Math.floor(y0 / CELL), 0, down), clamp(Math.ceil(y1 / CELL), 0, down)];
  const wide = across + 1;
  return sums[d * wide + b] - sums[d * wide + a] - sums[c * wide + b] + sums[c * wide + a];
}

/**
 * Sets all words of a picture, and near views of thin rope where these take no word's room.
 * @param {App} app
 * @param {Picture} picture
 * @param {number} i
 * @param {Room} room
 */
function drawLabels(app, picture, i, room) {
  const labels = wantedLabels(app, picture, i, room).map((label) => measuredLabel(app, label));
  let best = bestArranged(room, labels);
  let insets = insetsFor(app, picture, i, room);
  while (insets.length > 0) {
    const fuller = { ...room, boxes: [...room.boxes, ...insets.map(({ box }) => box)] };
    fuller.leaders = [...room.leaders, ...insets.map(({ box, spot }) => leaderOf(box, spot))];
    const found = bestArranged(fuller, labels);
    if (found.placed.size < best.placed.size) {
      insets = insets.slice(0, -1);
      continue;
    }
    best = found;
    break;
  }
  for (const inset of insets) setInset(app, picture, room, inset);
  for (const label of labels) setLabel(app, room, label, best.placed.get(label));
}

/**
 * The order and the lean that let words lie nearest to their places.
 * @param {Room} room
 * @param {Label[]} labels
 */
function bestArranged(room, labels) {
  const orders = ordersOf(labels);
  let best = bestOf(orders.map((order) => arranged(room, order, 0)));
  if (best.cost > CLOSE * labels.length) {
    best = bestOf([best, ...LEANS.flatMap((lean) => orders.map((order) => arranged(room, order, lean)))]);
  }
  if (best.poor.length > 0) {
    const first = [...best.poor, ...labels.filter((label) => !best.poor.includes(label))];
    best = bestOf([best, ...[0, ...LEANS].map((lean) => arranged(room, first, lean))]);
  }
  return best;
}

/** @param {Arranged[]} found */
const bestOf = (found) => found.reduce((least, other) => (other.cost < least.cost ? other : least));

/**
 * The words of a picture whose places are seen: its marks, then what else it says.
 * @param {App} app
 * @param {Picture} picture
 * @param {number} i
 * @param {Room} room
 * @returns {Wanted[]}
 */
function wantedLabels(app, picture, i, room) {
  const rope = ropeIn(app.store, picture.state, false);
  const wanted = [];
  if (app.choices.marks && rope) {
    for (const { letter, station, words } of picture.marks) wanted.push({ letter, words, at: middleAt(rope, station) });
  }
  if (app.choices.words) for (const { words, at } of picture.labels) wanted.push({ letter: "", words, at });
  const cut = rope && cutOf(app.choices.cut, rope, app.cameras[i], app.data.diameter);
  const there = wanted.filter(({ at }) => !cut || dot(cut.normal, at) < cut.offset + 0.5 * app.data.diameter);
  const spots = there.map((label) => ({ ...label, spot: projected(app.cameras[i], label.at) }));
  return spots.filter(({ spot: [x, y] }) => x > 4 && y > 4 && x < room.width - 4 && y < room.height - 4);
}

/**
 * Orders in which labels are set: from the left, from the right, and from the middle outward.
 * @param {Label[]} labels
 * @returns {Label[][]}
 */
function ordersOf(labels) {
  const across = labels.slice().sort((a, b) => a.spot[0] - b.spot[0]);
  if (labels.length < 2) return [across];
  const middle = (labels.length - 1) / 2;
  const outward = across.map((_, i) => i).sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
  return [across, across.slice().reverse(), outward.map((i) => across[i])];
}

/**
 * Words as they will be set, with the room they take; marked ones also as their letter alone.
 * @param {App} app
 * @param {Wanted} wanted
 * @returns {Label}
 */
function measuredLabel(app, { letter, words, spot }) {
  const said = element("span", { text: words });
  const made = element("div", { class: "label" }, letter ? element("b", { text: letter }) : null, words ? said : null);
  app.labels.append(made);
  const wide = textWidth(made, words ? said : /** @type {Node} */ (made.firstChild));
  /** @type {Spot[]} */
  const sizes = [[wide, made.offsetHeight]];
  if (letter && words) {
    said.remove();
    sizes.push([made.offsetWidth, made.offsetHeight]);
    made.append(said);
  }
  return { letter, spot, said, made, sizes, spaces: new Map() };
}

/**
 * Width of words from a label's left edge to the end of their longest line: less than the label's where they wrap.
 * @param {HTMLElement} made
 * @param {Node} last
 */
function textWidth(made, last) {
  const range = document.createRange();
  range.selectNodeContents(last);
  return Math.ceil(range.getBoundingClientRect().right - made.getBoundingClientRect().left) + 1;
}

/**
 * Finds room for labels one after another. `cost`: how far from their places; `poor`: those cut down or left out.
 * @param {Room} room
 * @param {Label[]} labels
 * @param {number} lean
 * @returns {Arranged}
 */
function arranged(room, labels, lean) {
  const taken = { ...room, boxes: room.boxes.slice(), leaders: room.leaders.slice() };
  const placed = new Map();
  const poor = [];
  let cost = 0;
  for (const label of labels) {
    const found = bestSize(taken, label, lean);
    cost += found ? found.away + SHORTER * found.short : WITHOUT;
    if (!found || found.short) poor.push(label);
    if (!found) continue;
    placed.set(label, found);
    taken.boxes.push(found.box);
    taken.leaders.push(leaderOf(found.box, label.spot));
  }
  return { cost, placed, poor };
}

/**
 * Room for the first of a label's sizes that there is any for.
 * @param {Room} room
 * @param {Label} label
 * @param {number} lean
 */
function bestSize(room, label, lean) {
  for (const short of label.sizes.keys()) {
    const found = freeBox(room, label, short, lean);
    if (found) return found;
  }
  return null;
}

/**
 * The rope's middle at a station.
 * @param {Rope} rope
 * @param {number} at
 * @returns {Vector}
 */
export function middleAt({ axis, station, n }, at) {
  const place = clamp((at - station[0]) / (station[1] - station[0]), 0, n - 1);
  const i = Math.min(Math.floor(place), n - 2);
  const on = (/** @type {number} */ c) => axis[3 * i + c] + (axis[3 * i + 3 + c] - axis[3 * i + c]) * (place - i);
  return [on(0), on(1), on(2)];
}

/**
 * Sets words where room was found for them, or for their letter; takes them away where there was none.
 * @param {App} app
 * @param {Room} room
 * @param {Label} label
 * @param {Space | undefined} found
 */
function setLabel(app, room, { letter, spot, said, made }, found) {
  if (!found) {
    made.remove();
    return;
  }
  const { box, short } = found;
  if (short) said.remove();
  else made.style.width = `${box[2] - box[0]}px`;
  made.style.left = `${room.left + box[0]}px`;
  made.style.top = `${room.top + box[1]}px`;
  room.boxes.push(box);
  drawLeader(app, room, leaderOf(box, spot), !letter && isBehind(app, room, spot));
}

/**
 * Whether a place lies behind rope: more than half the rope's thickness behind what is seen there.
 * @param {App} app
 * @param {Room} room
 * @param {Vector} spot
 */
function isBehind(app, { numbers }, [x, y, depth]) {
  const seen = numberAt(numbers, x, y);
  return seen !== null && seen.strand >= 0 && seen.toward > depth + 0.45 * app.data.diameter;
}

/**
 * Free room of a size near a spot, for something other than words; null where there is none.
 * @param {Room} room
 * @param {Vector} spot
 * @param {Spot} size
 */
export function roomFor(room, spot, size) {
  const spaces = spacesOf(room, { spot, sizes: [size], spaces: new Map() }, 0, Infinity, 0);
  return spaces.find(({ box }) => isFree(room, box, leaderOf(box, spot))) || null;
}

/**
 * The free box nearest to a label's spot, whose leader crosses no other; null where there is none.
 * @param {Room} room
 * @param {Label} label
 * @param {number} short
 * @param {number} lean
 * @returns {Space | null}
 */
function freeBox(room, label, short, lean) {
  for (const reach of label.letter ? [NEAR, Infinity] : [FARTHEST]) {
    const spaces = spacesOf(room, label, short, reach, lean);
    const found = spaces.find(({ box }) => isFree(room, box, leaderOf(box, label.spot)));
    if (found) return found;
  }
  return null;
}

/**
 * Boxes of a label's size off all that is drawn, nearest first, no farther from its spot than `reach` in x or y.
 * @param {Room} room
 * @param {Pick<Label, "spot" | "sizes" | "spaces">} label
 * @param {number} short
 * @param {number} reach
 * @param {number} lean
 * @returns {Space[]}
 */
function spacesOf(room, { spot: [u, v], sizes, spaces }, short, reach, lean) {
  const key = `${short} ${reach} ${lean}`;
  const had = spaces.get(key);
  if (had) return had;
  const [width, height] = sizes[short];
  /** @type {Space[]} */
  const found = [];
  const grid = 2 * CELL;
  const start = (/** @type {number} */ at, /** @type {number} */ size) => APART + grid * Math.max(Math.floor((at - reach - size - APART) / grid), 0);
  const [right, bottom] = [Math.min(room.width, u + reach + width), Math.min(room.height, v + reach + height)];
  for (let y = start(v, height); y + height + APART <= bottom; y += grid) {
    for (let x = start(u, width); x + width + APART <= right; x += grid) {
      /** @type {Box} */
      const box = [x, y, x + width, y + height];
      if (drawnIn(room, [x - APART, y - APART, x + width + APART, y + height + APART]) > 0) continue;
      found.push({ away: distanceTo(box, [u, v], lean), box, short });
    }
  }
  spaces.set(key, found.sort((a, b) => a.away - b.away));
  return found;
}

/**
 * @param {Box} box
 * @param {Spot} spot
 * @param {number} lean
 */
function distanceTo([left, top, right, bottom], [x, y], lean) {
  const [dx, dy] = [Math.max(left - x, x - right, 0), Math.max(top - y, y - bottom, 0)];
  return Math.hypot(dx, dy) + 0.2 * Math.abs((left + right + lean * (left - right)) / 2 - x);
}

/**
 * @param {Room} room
 * @param {Box} box
 * @param {Line} leader
 */
function isFree(room, box, leader) {
  const clear = room.boxes.every((other) => !boxesMeet(box, other));
  const straight = room.leaders.every((other) => !linesCross(leader, other) && !lineMeets(other, box));
  return clear && straight && room.boxes.every((other) => !lineMeets(leader, other));
}

/**
 * @param {Box} a
 * @param {Box} b
 */
function boxesMeet(a, b) {
  return a[0] < b[2] + APART && b[0] < a[2] + APART && a[1] < b[3] + APART && b[1] < a[3] + APART;
}

/**
 * @param {Box} box
 * @param {Spot | Vector} spot
 * @returns {Line}
 */
export function leaderOf([left, top, right, bottom], [x, y]) {
  return [[clamp(x, left, right), clamp(y, top, bottom)], [x, y]];
}

/**
 * @param {Spot} a
 * @param {Spot} b
 * @param {Spot} c
 */
const turnOf = (a, b, c) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/**
 * @param {Line} line
 * @param {Line} other
 */
function linesCross([a, b], [c, d]) {
  return turnOf(a, b, c) * turnOf(a, b, d) < 0 && turnOf(c, d, a) * turnOf(c, d, b) < 0;
}

/**
 * @param {Line} line
 * @param {Box} box
 */
function lineMeets(line, [left, top, right, bottom]) {
  const [[x0, y0], [x1, y1]] = line;
  const within = (/** @type {number} */ x, /** @type {number} */ y) => x > left && x < right && y > top && y < bottom;
  if (within(x0, y0) || within(x1, y1)) return true;
  /** @type {Spot[]} */
  const corners = [[left, top], [right, top], [right, bottom], [left, bottom]];
  return corners.some((corner, i) => linesCross(line, [corner, corners[(i + 1) % 4]]));
}

/**
 * The line from words to their place; dashed with an open end where that lies behind rope.
 * @param {App} app
 * @param {Room} room
 * @param {Line} line
 * @param {boolean} behind
 */
export function drawLeader(app, room, [from, to], behind) {
  room.leaders.push([from, to]);
  const [x1, y1, x2, y2] = [room.left + from[0], room.top + from[1], room.left + to[0], room.top + to[1]];
  app.over.append(drawing("line", { x1, y1, x2, y2, class: "halo" }));
  app.over.append(drawing("line", { x1, y1, x2, y2, class: behind ? "leader behind" : "leader" }));
  app.over.append(drawing("circle", { cx: x2, cy: y2, r: 3.5, class: behind ? "spot behind" : "spot" }));
}

/**
 * Where the rope lay in the state before: a faint band under the picture.
 * @param {App} app
 */
export function drawGhost(app) {
  app.under.replaceChildren();
  app.pictures.forEach((picture, i) => {
    const { ghost } = picture;
    const rope = ghost && app.choices.ghost && app.cameras[i] ? ropeIn(app.store, ghost.state, false) : null;
    if (!ghost || !rope) return;
    const [left, top] = app.boxes[i];
    const spots = [];
    for (let at = 0; at < rope.n; at++) {
      const [x, y, z] = rope.axis.subarray(3 * at, 3 * at + 3);
      spots.push(projected(app.cameras[i], turnedUp([x, y, z], ghost.turn)));
    }
    const d = spots.map(([x, y], at) => `${at ? "L" : "M"}${(left + x).toFixed(1)} ${(top + y).toFixed(1)}`).join("");
    const wide = app.data.diameter * app.cameras[i].scale;
    app.under.append(drawing("path", { d, class: "ghost-rim", "stroke-width": wide }));
    app.under.append(drawing("path", { d, class: "ghost", "stroke-width": Math.max(wide - 3, 1) }));
  });
}
