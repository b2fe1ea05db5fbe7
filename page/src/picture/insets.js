// Near views of a long rope's marked places, set where the picture has room, each with a line to its place.

import { cardDone, readNumbers } from "../card/numbers.js";
import { askPixels } from "../card/painter.js";
import { element } from "../dom.js";
import { projected, sized } from "../geometry/camera.js";
import { add, minus, norm, times } from "../geometry/vectors.js";
import { ropeIn } from "../store.js";
import { drawLeader, leaderOf, middleAt, roomFor } from "./labels.js";
import { panelOf } from "./stage.js";

/** @import { App, Camera, Cluster, Inset, Picture, Room, Vector } from "../types" */

const THIN = 14; // CSS pixels of a rope diameter below which near views are set
const NEAR_BY = 9; // diameters between places that share a view
const BESIDE = 2.5; // diameters of rope that are seen beyond the outermost place
const LEAST_SPAN = 7; // diameters that are seen at least
const MOST = 3; // views in a picture
const LEAST_HEIGHT = 50; // CSS pixels
const SHARES = { width: 0.4, height: 0.26 }; // of the picture that a view takes at most
const LARGEST = { width: 260, height: 170 }; // CSS pixels

/**
 * Groups of places that lie near one another, those with letters first; then from the left.
 * @param {{ letter: string, at: Vector }[]} places
 * @param {number} diameter
 * @returns {Cluster[]}
 */
export function clustersOf(places, diameter) {
  /** @type {{ letter: string, at: Vector }[][]} */
  const groups = [];
  for (const place of places) {
    const near = groups.find((group) => group.some(({ at }) => norm(minus(at, place.at)) < NEAR_BY * diameter));
    if (near) near.push(place);
    else groups.push([place]);
  }
  const lettered = (/** @type {typeof places} */ group) => group.filter(({ letter }) => letter).length;
  return groups.sort((a, b) => lettered(b) - lettered(a)).map((group) => clusterOf(group, diameter));
}

/**
 * @param {{ letter: string, at: Vector }[]} places
 * @param {number} diameter
 * @returns {Cluster}
 */
function clusterOf(places, diameter) {
  const middle = times(places.reduce((sum, { at }) => add(sum, at), /** @type {Vector} */ ([0, 0, 0])), 1 / places.length);
  const reach = Math.max(...places.map(({ at }) => norm(minus(at, middle))));
  return { places, middle, span: Math.max(2 * (reach + BESIDE * diameter), LEAST_SPAN * diameter) };
}

/**
 * Near views of a picture whose rope is thin, where there is room.
 * @param {App} app
 * @param {Picture} picture
 * @param {number} i
 * @param {Room} room
 */
export function insetsFor(app, picture, i, room) {
  const camera = app.cameras[i];
  const rope = ropeIn(app.store, picture.state, true);
  if (!rope || camera.moved || app.into || camera.scale * app.data.diameter >= THIN) return [];
  const marks = picture.marks.map(({ letter, station }) => ({ letter, at: middleAt(rope, station) }));
  const inside = [...marks, ...picture.labels.map(({ at }) => ({ letter: "", at }))].filter(({ at }) => {
    const [x, y] = projected(camera, at);
    return x > 4 && y > 4 && x < room.width - 4 && y < room.height - 4;
  });
  const width = Math.round(Math.min(SHARES.width * room.width, LARGEST.width));
  const height = Math.round(Math.min(SHARES.height * room.height, LARGEST.height));
  if (height < LEAST_HEIGHT) return [];
  const taken = { ...room, boxes: room.boxes.slice(), leaders: room.leaders.slice() };
  return clustersOf(inside, app.data.diameter).slice(0, MOST).flatMap(({ places, middle, span }) => {
    const scale = Math.min(width, 1.6 * height) / span;
    const spot = projected(camera, middle);
    const found = scale < 1.5 * camera.scale ? null : roomFor(taken, spot, [width, height]);
    if (!found) return [];
    taken.boxes.push(found.box);
    taken.leaders.push(leaderOf(found.box, spot));
    return [{ box: found.box, spot, places, camera: sized({ ...camera, centre: middle, scale }, width, height) }];
  });
}

/**
 * Sets a near view into its place, and begins to draw it.
 * @param {App} app
 * @param {Picture} picture
 * @param {Room} room
 * @param {Inset} inset
 */
export function setInset(app, picture, room, { box, spot, places, camera }) {
  room.boxes.push(box);
  drawLeader(app, room, leaderOf(box, spot), false);
  const made = element("canvas", { class: "inset", "aria-hidden": "true" });
  const sides = { left: room.left + box[0], top: room.top + box[1], width: camera.width, height: camera.height };
  for (const [name, value] of Object.entries(sides)) made.style.setProperty(name, `${value}px`);
  app.labels.append(made);
  fillInset(app, picture, made, camera, places);
}

/**
 * Draws a near view, and puts it into its place when the card has drawn it, if it still stands there.
 * @param {App} app
 * @param {Picture} picture
 * @param {HTMLCanvasElement} made
 * @param {Camera} camera
 * @param {Cluster["places"]} places
 */
async function fillInset(app, picture, made, camera, places) {
  const { painter } = app;
  const [width, height] = [camera.width, camera.height].map((value) => Math.round(value * Math.min(app.size.ratio, 2)));
  const panel = panelOf(app, picture, [0, 0, width, height], camera, true);
  if (!panel) return;
  const asked = askPixels(painter, panel);
  if (!(await cardDone(painter)) || painter !== app.painter) return;
  const { bytes } = readNumbers(painter, asked);
  if (!made.isConnected) return;
  [made.width, made.height] = [width, height];
  const context = made.getContext("2d");
  if (!context) return;
  context.putImageData(upright(bytes, width, height), 0, 0);
  context.scale(width / camera.width, height / camera.height);
  for (const { letter, at } of places) if (letter) writeLetter(context, letter, projected(camera, at));
}

/**
 * The card's pixels as an image's: rows from the top, colours by themselves.
 * @param {Uint8Array} bytes
 * @param {number} width
 * @param {number} height
 */
function upright(bytes, width, height) {
  const image = new ImageData(width, height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [from, to] = [4 * ((height - 1 - y) * width + x), 4 * (y * width + x)];
      const alpha = bytes[from + 3];
      for (let c = 0; c < 3; c++) image.data[to + c] = alpha ? (255 * bytes[from + c]) / alpha : 0;
      image.data[to + 3] = alpha;
    }
  }
  return image;
}

/**
 * @param {CanvasRenderingContext2D} context
 * @param {string} letter
 * @param {Vector} spot
 */
function writeLetter(context, letter, [x, y]) {
  const style = getComputedStyle(context.canvas);
  const [ink, paper] = [style.color, style.backgroundColor];
  context.font = "600 13px system-ui, sans-serif";
  context.textAlign = "center";
  context.lineJoin = "round";
  context.lineWidth = 4;
  context.strokeStyle = paper;
  context.fillStyle = ink;
  context.beginPath();
  context.arc(x, y, 3, 0, 2 * Math.PI);
  context.fill();
  context.strokeText(letter, x, y - 7);
  context.fillText(letter, x, y - 7);
}
