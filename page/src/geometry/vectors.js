// Vectors as arrays of three numbers, turns as unit quaternions [x, y, z, w].

/** @import { Vector } from "../types" */

/**
 * @param {Vector} a
 * @param {Vector} b
 * @returns {Vector}
 */
export const add = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
/**
 * @param {Vector} a
 * @param {Vector} b
 * @returns {Vector}
 */
export const minus = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
/**
 * @param {Vector} a
 * @param {number} k
 * @returns {Vector}
 */
export const times = (a, k) => [a[0] * k, a[1] * k, a[2] * k];
/**
 * @param {Vector} a
 * @param {Vector} b
 */
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
/**
 * @param {Vector} a
 * @param {Vector} b
 * @returns {Vector}
 */
export const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
/** @param {Vector} a */
export const norm = (a) => Math.hypot(a[0], a[1], a[2]);
/**
 * @param {Vector} a
 * @returns {Vector}
 */
export const unit = (a) => times(a, 1 / Math.max(norm(a), 1e-12));
/**
 * @param {number} x
 * @param {number} low
 * @param {number} high
 */
export const clamp = (x, low, high) => Math.min(Math.max(x, low), high);

/**
 * A vector turned about a unit axis by an angle in radians.
 * @param {Vector} v
 * @param {Vector} axis
 * @param {number} angle
 * @returns {Vector}
 */
export function turnedAbout(v, axis, angle) {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return add(add(times(v, c), times(cross(axis, v), s)), times(axis, dot(axis, v) * (1 - c)));
}

/**
 * A vector turned about z by an angle in radians.
 * @param {Vector} v
 * @param {number} angle
 * @returns {Vector}
 */
export const turnedUp = (v, angle) => turnedAbout(v, [0, 0, 1], angle);
