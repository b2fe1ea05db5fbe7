// What fingers mean: how far they slipped, what two of them do, a stroke to the side. Spots are in CSS pixels.

/** @import { Spot } from "../types" */

const TAP = 7; // how far a finger may slip and still tap
const SWIPE = 60; // beyond which a stroke over the words goes to another step
const MOST_TURN = 0.5; // radians between two moments beyond which two fingers have changed places

/**
 * Whether a finger has left the spot that it was put on.
 * @param {Spot} start
 * @param {Spot} spot
 */
export const slipped = (start, spot) => Math.hypot(spot[0] - start[0], spot[1] - start[1]) > TAP;

/**
 * What one of two fingers does by going from one spot to another, the other resting: nearer as they part, moved with
 * their middle, rolled as they turn.
 * @param {Spot} from
 * @param {Spot} to
 * @param {Spot} other
 * @returns {{ factor: number, turn: number, shift: Spot, middle: Spot }}
 */
export function pinched(from, to, other) {
  const [before, after] = [from, to].map((spot) => [spot[0] - other[0], spot[1] - other[1]]);
  const across = before[0] * after[1] - before[1] * after[0];
  const angle = Math.atan2(across, before[0] * after[0] + before[1] * after[1]);
  return {
    factor: Math.hypot(after[0], after[1]) / Math.max(Math.hypot(before[0], before[1]), 1),
    turn: Math.abs(angle) < MOST_TURN ? angle : 0,
    shift: [(to[0] - from[0]) / 2, (to[1] - from[1]) / 2],
    middle: [(from[0] + other[0]) / 2, (from[1] + other[1]) / 2],
  };
}

/**
 * Steps that a stroke goes on by: 1 to the left, -1 to the right, 0 where it is short or rather up or down.
 * @param {Spot} start
 * @param {Spot} end
 */
export function stroke(start, end) {
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  if (Math.abs(dx) <= SWIPE || Math.abs(dx) <= 2 * Math.abs(dy)) return 0;
  return dx < 0 ? 1 : -1;
}

/**
 * How much nearer a turn of the wheel comes.
 * @param {number} delta
 */
export const wheeled = (delta) => Math.exp(-Math.min(Math.max(delta, -200), 200) * 0.0022);
