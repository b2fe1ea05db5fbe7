// The way from one step's state to the next, through settled moments that are evenly spaced along it.

const NEAR = 0.02; // of the way: a handle goes to a settled state that it is so near to

/**
 * Which of a way's stretches a share of it lies in, and how far: its states are evenly spaced.
 * @param {number} motion
 * @param {number} states
 */
export function stretchAt(motion, states) {
  const along = motion * (states - 1);
  const at = Math.min(Math.floor(along), states - 2);
  return { at, share: along - at };
}

/**
 * A share of the way, on the settled moment beside it where one is near.
 * @param {number} motion
 * @param {number} states
 */
export function atMoment(motion, states) {
  const nearest = Math.round(motion * (states - 1)) / (states - 1);
  return Math.abs(nearest - motion) < NEAR ? nearest : motion;
}
