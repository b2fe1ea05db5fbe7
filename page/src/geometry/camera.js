// A parallel camera: what point is in the middle, which way right, up and the viewer lie, how many pixels to a mm.

import { add, clamp, cross, dot, minus, times, turnedAbout, unit } from "./vectors.js";

/** @import { Axes, Camera, Run, Sight, Spot, Vector } from "../types" */

const NEAREST_SCALE = 400; // pixels to a mm that a camera can't come nearer than
const MARGIN = 0.07;

/**
 * Axes of a camera toward which `direction` points from the model, `upward` upward in the picture.
 * @param {Vector} direction
 * @param {Vector} upward
 * @returns {Axes}
 */
export function axesOf(direction, upward) {
  const toward = unit(direction);
  const right = unit(cross(upward, toward));
  return { toward, right, up: cross(toward, right) };
}

/**
 * The camera that just holds points in a box of pixels; `least`: mm that must be seen across.
 * @param {Vector[]} points
 * @param {Axes} axes
 * @param {number} width
 * @param {number} height
 * @param {number} least
 * @returns {Camera}
 */
export function fittedCamera(points, axes, width, height, least) {
  const spans = [axes.right, axes.up, axes.toward].map((axis) => spanOf(points, axis));
  const centre = [axes.right, axes.up, axes.toward].reduce(
    (sum, axis, i) => add(sum, times(axis, (spans[i][0] + spans[i][1]) / 2)),
    [0, 0, 0],
  );
  const room = 1 - 2 * MARGIN;
  const across = Math.max(spans[0][1] - spans[0][0], least);
  const scale = Math.min((width * room) / across, (height * room) / Math.max(spans[1][1] - spans[1][0], 1e-6));
  return sized({ ...axes, centre, scale }, width, height);
}

/**
 * @param {Vector[]} points
 * @param {Vector} axis
 * @returns {Run}
 */
function spanOf(points, axis) {
  return points.reduce(
    ([low, high], point) => {
      const at = dot(point, axis);
      return [Math.min(low, at), Math.max(high, at)];
    },
    [Infinity, -Infinity],
  );
}

/**
 * The camera for a box of pixels.
 * @param {Axes & { centre: Vector, scale: number }} camera
 * @param {number} width
 * @param {number} height
 * @returns {Camera}
 */
export function sized(camera, width, height) {
  return { ...camera, width, height, halfWidth: width / 2 / camera.scale, halfHeight: height / 2 / camera.scale };
}

/**
 * Turned by pixels moved: a drag across the box turns the model by half a turn.
 * @param {Camera} camera
 * @param {number} dx
 * @param {number} dy
 * @returns {Camera}
 */
export function orbited(camera, dx, dy) {
  const size = Math.min(camera.width, camera.height);
  const [yaw, pitch] = [(-Math.PI * dx) / size, (-Math.PI * dy) / size];
  const turnBoth = (/** @type {Vector} */ v) => turnedAbout(turnedAbout(v, camera.up, yaw), camera.right, pitch);
  const toward = unit(turnBoth(camera.toward));
  const right = unit(minus(turnBoth(camera.right), times(toward, dot(turnBoth(camera.right), toward))));
  return { ...camera, toward, right, up: cross(toward, right) };
}

/**
 * Rolled by an angle in radians about the line of sight through a pixel, counted from the box's middle.
 * @param {Camera} camera
 * @param {number} angle
 * @param {Spot} [spot]
 * @returns {Camera}
 */
export function rolled(camera, angle, [x, y] = [0, 0]) {
  const right = turnedAbout(camera.right, camera.toward, angle);
  const up = cross(camera.toward, right);
  const held = add(camera.centre, add(times(camera.right, x / camera.scale), times(camera.up, -y / camera.scale)));
  const centre = add(held, add(times(right, -x / camera.scale), times(up, y / camera.scale)));
  return { ...camera, centre, right, up };
}

/**
 * Moved by pixels.
 * @param {Camera} camera
 * @param {number} dx
 * @param {number} dy
 * @returns {Camera}
 */
export function panned(camera, dx, dy) {
  const shift = add(times(camera.right, -dx / camera.scale), times(camera.up, dy / camera.scale));
  return { ...camera, centre: add(camera.centre, shift) };
}

/**
 * Nearer by a factor, the point under a pixel (from the box's middle) staying where it is.
 * @param {Camera} camera
 * @param {number} factor
 * @param {Spot} spot
 * @returns {Camera}
 */
export function zoomed(camera, factor, [x, y]) {
  const scale = clamp(camera.scale * factor, 0.02, NEAREST_SCALE);
  const gain = 1 / camera.scale - 1 / scale;
  const centre = add(camera.centre, add(times(camera.right, x * gain), times(camera.up, -y * gain)));
  return sized({ ...camera, centre, scale }, camera.width, camera.height);
}

/**
 * Moved as two fingers go: nearer by a factor, shifted and rolled, what lies in their middle staying there.
 * @param {Camera} camera
 * @param {{ factor: number, turn: number, shift: Spot }} way
 * @param {Spot} middle
 * @returns {Camera}
 */
export function handled(camera, { factor, turn, shift: [dx, dy] }, middle) {
  return rolled(panned(zoomed(camera, factor, middle), dx, dy), turn, [middle[0] + dx, middle[1] + dy]);
}

/**
 * Pixels from the box's top left corner of a place in mm, and its depth toward the viewer.
 * @param {Camera} camera
 * @param {Vector} place
 * @returns {Vector}
 */
export function projected(camera, place) {
  const away = minus(place, camera.centre);
  const x = camera.width / 2 + dot(away, camera.right) * camera.scale;
  const y = camera.height / 2 - dot(away, camera.up) * camera.scale;
  return [x, y, dot(away, camera.toward)];
}

/**
 * The line of sight through a pixel: a point of it and its direction away from the viewer.
 * @param {Camera} camera
 * @param {number} x
 * @param {number} y
 * @returns {Sight}
 */
export function sightLine(camera, x, y) {
  const across = times(camera.right, (x - camera.width / 2) / camera.scale);
  const upward = times(camera.up, (camera.height / 2 - y) / camera.scale);
  return { from: add(camera.centre, add(across, upward)), along: times(camera.toward, -1) };
}

/** @type {Record<string, [Vector, Vector]>} */
export const STANDARD = {
  above: [[0, 0, 1], [0, 1, 0]],
  below: [[0, 0, -1], [0, 1, 0]],
  left: [[0, 1, 0.0001], [0, 0, 1]],
  right: [[0, -1, 0.0001], [0, 0, 1]],
  captive: [[-1, 0, 0.0001], [0, 0, 1]],
  eye: [[1, 0, 0.0001], [0, 0, 1]],
  corner: [[0.5, -0.8, 0.7], [0, 0, 1]],
};
