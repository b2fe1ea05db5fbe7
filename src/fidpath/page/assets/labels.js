// Words and numbers over the picture: letters at marks with leaders, never on the rope nor on one another.

const CELL = 4; // CSS pixels to a cell of the map of what is drawn
const CHIP = 9; // CSS pixels, radius of a number's disc
const APART = 6; // CSS pixels kept clear round words

/** Takes the words off while the picture moves; keeps what is measured in its place. */
function clearOver(app, there) {
  app.labels.replaceChildren();
  app.over.replaceChildren();
  drawGhost(app);
  if (there) drawMeasured(app);
}

function drawOver(app) {
  clearOver(app, true);
  app.pictures.forEach((picture, i) => {
    if (!picture.views) return;
    const room = roomOf(app, i);
    if (app.choices.numbers) drawNumbers(app, picture, i, room);
    drawLabels(app, picture, i, room);
  });
}

/** A map of the free room in panel i: what is drawn, and the corner where buttons lie, are taken. */
function roomOf(app, i) {
  const [left, top, width, height] = app.boxes[i];
  const [across, down] = [Math.ceil(width / CELL), Math.ceil(height / CELL)];
  const drawn = drawnCells(app, i, across, down);
  const sums = new Int32Array((across + 1) * (down + 1));
  for (let y = 0; y < down; y++) {
    for (let x = 0; x < across; x++) {
      const at = (y + 1) * (across + 1) + x + 1;
      sums[at] = drawn[y * across + x] + sums[at - 1] + sums[at - across - 1] - sums[at - across - 2];
    }
  }
  return { left, top, width, height, across, down, sums, boxes: buttonBoxes(app, left, top), leaders: [] };
}

/** 1 where something is drawn in a cell of panel i, read back from the card at the size of the cells. */
function drawnCells(app, i, across, down) {
  const { painter, size } = app;
  const { gl } = painter;
  const [x, y, width, height] = app.boxes[i].map((value) => Math.round(value * size.ratio));
  const small = target(painter, "cells", across, down, false);
  let from = { frame: null, x, y: painter.canvas.height - y - height, width, height };
  for (let step = 0; from.width > 2 * across; step++) {
    const [wide, high] = [Math.ceil(from.width / 2), Math.ceil(from.height / 2)];
    from = shrunk(gl, from, { ...target(painter, `half ${step}`, wide, high, false), x: 0, y: 0 });
  }
  from = shrunk(gl, from, { ...small, x: 0, y: 0 });
  const pixels = new Uint8Array(4 * across * down);
  gl.bindFramebuffer(gl.FRAMEBUFFER, small.frame);
  gl.readPixels(0, 0, across, down, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
  return grown(Uint8Array.from({ length: across * down }, (_, at) => cellAt(pixels, at, across, down)), across, down);
}

function cellAt(pixels, at, across, down) {
  const row = down - 1 - Math.floor(at / across);
  return pixels[4 * (row * across + (at % across)) + 3] > 0 ? 1 : 0;
}

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

/** Copies a frame into another of half its size or so, averaging. */
function shrunk(gl, from, to) {
  gl.bindFramebuffer(gl.READ_FRAMEBUFFER, from.frame);
  gl.bindFramebuffer(gl.DRAW_FRAMEBUFFER, to.frame);
  const source = [from.x, from.y, from.x + from.width, from.y + from.height];
  gl.blitFramebuffer(...source, 0, 0, to.width, to.height, gl.COLOR_BUFFER_BIT, gl.LINEAR);
  return to;
}

/** Boxes of what else lies over the picture: buttons, and which side is which. */
function buttonBoxes({ canvas, covers }, left, top) {
  const origin = canvas.getBoundingClientRect();
  return covers.flatMap((cover) => [...cover.children]).filter((cover) => cover.offsetParent !== null).map((cover) => {
    const box = cover.getBoundingClientRect();
    const [x, y] = [box.left - origin.left - left, box.top - origin.top - top];
    return [x, y, x + box.width, y + box.height];
  });
}

/** Number of drawn cells in a box of CSS pixels of the panel. */
function drawnIn({ sums, across, down }, [x0, y0, x1, y1]) {
  const [a, b] = [clamp(Math.floor(x0 / CELL), 0, across), clamp(Math.ceil(x1 / CELL), 0, across)];
  const [c, d] = [clamp(Math.floor(y0 / CELL), 0, down), clamp(Math.ceil(y1 / CELL), 0, down)];
  const wide = across + 1;
  return sums[d * wide + b] - sums[d * wide + a] - sums[c * wide + b] + sums[c * wide + a];
}

/** All words of a picture: its marks, then what else it says. */
function drawLabels(app, picture, i, room) {
  const rope = ropeIn(app.store, picture.state, false);
  const wanted = [];
  if (app.choices.marks && rope) {
    for (const { letter, station, words } of picture.marks) wanted.push({ letter, words, at: middleAt(rope, station) });
  }
  if (app.choices.words) for (const { words, at } of picture.labels) wanted.push({ letter: "", words, at });
  const cut = rope && cutOf(app.choices.cut, rope, app.cameras[i], app.data.diameter);
  const there = wanted.filter(({ at }) => !cut || dot(cut.normal, at) < cut.offset + 0.5 * app.data.diameter);
  const spots = there.map((label) => ({ ...label, i, spot: projected(app.cameras[i], label.at) }));
  const inside = spots.filter(({ spot: [x, y] }) => x > 4 && y > 4 && x < room.width - 4 && y < room.height - 4);
  inside.sort((a, b) => a.spot[0] - b.spot[0]);
  for (const label of inside) placeLabel(app, label, room);
}

/** The rope's middle at a station. */
function middleAt({ axis, station, n }, at) {
  const place = clamp((at - station[0]) / (station[1] - station[0]), 0, n - 1);
  const i = Math.min(Math.floor(place), n - 2);
  return [0, 1, 2].map((c) => axis[3 * i + c] + (axis[3 * i + 3 + c] - axis[3 * i + c]) * (place - i));
}

/** Sets words where there is room for them, only the letter where there is none for more, or nothing at all. */
function placeLabel(app, { letter, words, spot, i }, room) {
  const made = element("div", { class: "label" }, letter ? element("b", { text: letter }) : null);
  const said = element("span", { text: words });
  if (words) made.append(said);
  app.labels.append(made);
  let box = freeBox(room, spot, made.offsetWidth, made.offsetHeight);
  if (!box && letter && words) {
    said.remove();
    box = freeBox(room, spot, made.offsetWidth, made.offsetHeight);
  }
  if (!box) {
    made.remove();
    return;
  }
  made.style.left = `${room.left + box[0]}px`;
  made.style.top = `${room.top + box[1]}px`;
  room.boxes.push(box);
  drawLeader(app, room, leaderOf(box, spot), !letter && isBehind(app, i, spot));
}

/** Whether a place lies behind rope: more than half the rope's thickness behind what is seen there. */
function isBehind(app, i, [x, y, depth]) {
  const hit = pickAt(app, i, x, y);
  return hit !== null && hit.toward > depth + 0.45 * app.data.diameter;
}

/** The free box of a size nearest to a spot, whose leader crosses no other; null where there is none. */
function freeBox(room, spot, width, height) {
  const found = [];
  for (let y = APART; y + height + APART <= room.height; y += 2 * CELL) {
    for (let x = APART; x + width + APART <= room.width; x += 2 * CELL) {
      const box = [x, y, x + width, y + height];
      if (drawnIn(room, [x - APART, y - APART, x + width + APART, y + height + APART]) > 0) continue;
      found.push([distanceTo(box, spot), box]);
    }
  }
  found.sort((a, b) => a[0] - b[0]);
  const free = found.find(([, box]) => isFree(room, box, leaderOf(box, spot)));
  return free ? free[1] : null;
}

function distanceTo([left, top, right, bottom], [x, y]) {
  const [dx, dy] = [Math.max(left - x, x - right, 0), Math.max(top - y, y - bottom, 0)];
  return Math.hypot(dx, dy) + 0.2 * Math.abs((left + right) / 2 - x);
}

function isFree(room, box, leader) {
  const clear = room.boxes.every((other) => !boxesMeet(box, other));
  const straight = room.leaders.every((other) => !linesCross(leader, other) && !lineMeets(other, box));
  return clear && straight && room.boxes.every((other) => !lineMeets(leader, other));
}

function boxesMeet(a, b) {
  return a[0] < b[2] + APART && b[0] < a[2] + APART && a[1] < b[3] + APART && b[1] < a[3] + APART;
}

function leaderOf([left, top, right, bottom], [x, y]) {
  const start = [clamp(x, left, right), clamp(y, top, bottom)];
  return [start, [x, y]];
}

const turnOf = (a, b, c) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

function linesCross([a, b], [c, d]) {
  return turnOf(a, b, c) * turnOf(a, b, d) < 0 && turnOf(c, d, a) * turnOf(c, d, b) < 0;
}

function lineMeets(line, [left, top, right, bottom]) {
  const [[x0, y0], [x1, y1]] = line;
  const within = (x, y) => x > left && x < right && y > top && y < bottom;
  if (within(x0, y0) || within(x1, y1)) return true;
  const corners = [[left, top], [right, top], [right, bottom], [left, bottom]];
  return corners.some((corner, i) => linesCross(line, [corner, corners[(i + 1) % 4]]));
}

/** The line from words to their place; dashed with an open end where that lies behind rope. */
function drawLeader(app, room, [from, to], behind) {
  room.leaders.push([from, to]);
  const [x1, y1, x2, y2] = [room.left + from[0], room.top + from[1], room.left + to[0], room.top + to[1]];
  app.over.append(drawing("line", { x1, y1, x2, y2, class: "halo" }));
  app.over.append(drawing("line", { x1, y1, x2, y2, class: behind ? "leader behind" : "leader" }));
  app.over.append(drawing("circle", { cx: x2, cy: y2, r: 3.5, class: behind ? "spot behind" : "spot" }));
}

/** Numbers on the strands of opened places, where the strand is seen and there is room to read them. */
function drawNumbers(app, picture, i, room) {
  const camera = app.cameras[i];
  if (camera.scale * app.data.diameter < 70 || app.choices.cut.way !== "off") return;
  const set = [];
  for (const { words, at, strand, colour } of picture.chips) {
    const [x, y] = projected(camera, at);
    const crowded = set.some(([u, v]) => Math.hypot(x - u, y - v) < 2 * CHIP);
    if (x < 0 || y < 0 || x > room.width || y > room.height || crowded) continue;
    const hit = pickAt(app, i, x, y);
    if (!hit || hit.strand !== strand) continue;
    set.push([x, y]);
    drawChip(app, [room.left + x, room.top + y], words, colour);
  }
}

function drawChip(app, [x, y], words, colour) {
  const text = drawing("text", { x, y: y + 4, class: "chip-text" });
  text.textContent = words;
  app.over.append(drawing("circle", { cx: x, cy: y, r: CHIP, class: "chip", fill: cssColour(colour) }), text);
}

/** Where the rope lay in the state before: a faint band under the picture. */
function drawGhost(app) {
  app.under.replaceChildren();
  app.pictures.forEach((picture, i) => {
    const wanted = picture.ghost && app.choices.ghost && app.cameras[i];
    const rope = wanted ? ropeIn(app.store, picture.ghost.state, false) : null;
    if (!rope) return;
    const [left, top] = app.boxes[i];
    const spots = [];
    for (let at = 0; at < rope.n; at += 4) {
      const place = [rope.axis[3 * at], rope.axis[3 * at + 1], rope.axis[3 * at + 2]];
      spots.push(projected(app.cameras[i], turnedUp(place, picture.ghost.turn)));
    }
    const d = spots.map(([x, y], at) => `${at ? "L" : "M"}${(left + x).toFixed(1)} ${(top + y).toFixed(1)}`).join("");
    const wide = app.data.diameter * app.cameras[i].scale;
    app.under.append(drawing("path", { d, class: "ghost-rim", "stroke-width": wide }));
    app.under.append(drawing("path", { d, class: "ghost", "stroke-width": Math.max(wide - 3, 1) }));
  });
}
