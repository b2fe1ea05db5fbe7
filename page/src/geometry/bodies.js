// Hard bodies beside the strands, and where drawn strands stop at them: seat.py, rods.py and clearance.py.

/** @import { Around, Refined, SeatRecord, Strands } from "../types" */

const HALVINGS = 14;

/**
 * Distance of a point from the terminator's surface, mm, negative inside.
 * @param {SeatRecord} seat
 * @param {number} x
 * @param {number} y
 * @param {number} z
 */
function seatClearance({ crown, nose, reach, groove, lip, halfWidth, centre }, x, y, z) {
  const distance = planformDistance(crown, nose, reach, x - centre[0], y - centre[1]);
  const height = Math.abs(z - centre[2]);
  const [over, beside] = [distance - lip, height - halfWidth];
  const box = Math.hypot(Math.max(over, 0), Math.max(beside, 0)) + Math.min(Math.max(over, beside), 0);
  return groove > 0 ? Math.max(box, groove - Math.hypot(distance - groove, height)) : box;
}

/**
 * @param {number} crown
 * @param {number} nose
 * @param {number} reach
 * @param {number} x
 * @param {number} y
 */
function planformDistance(crown, nose, reach, x, y) {
  if (reach <= 0) return Math.hypot(x, y) - crown;
  const sin = (crown - nose) / reach;
  const slope = sin / Math.sqrt(1 - sin * sin);
  const place = Math.min(Math.max(-x - Math.abs(y) * slope, 0), reach);
  return Math.hypot(x + place, y) - (crown - place * sin);
}

/**
 * Distance of a point from a rod's side, square to its axis; large beyond its ends.
 * @param {number[]} rod
 * @param {number} x
 * @param {number} y
 * @param {number} z
 */
function rodClearance([tx, ty, tz, dx, dy, dz, radius, tipRadius, taper, length], x, y, z) {
  const behind = -((x - tx) * dx + (y - ty) * dy + (z - tz) * dz);
  const out = Math.hypot(x - tx + behind * dx, y - ty + behind * dy, z - tz + behind * dz);
  if (behind < 0 || behind > length) return Math.max(out, radius);
  return out - Math.min(radius, tipRadius + ((radius - tipRadius) * behind) / taper);
}

/**
 * @param {Strands} strands
 * @param {number} x
 * @param {number} y
 * @param {number} z
 */
function clearance({ seat, rods }, x, y, z) {
  let least = seat ? seatClearance(seat, x, y, z) : Infinity;
  for (const rod of rods) least = Math.min(least, rodClearance(rod, x, y, z));
  return least;
}

/**
 * Shortens in place the rays that end inside a hard body, to its surface, by halving.
 * @param {Strands} strands
 * @param {Refined} line
 * @param {Around} section
 * @param {Float32Array} radii
 */
export function stopAtBodies(strands, line, section, radii) {
  if (!strands.seat && strands.rods.length === 0) return;
  const longest = radii.reduce((a, b) => Math.max(a, b), 0);
  for (let k = 0; k < line.strands; k++) {
    for (let i = 0; i < line.count[k]; i++) {
      const at = 3 * (k * line.n + i);
      const [x, y, z] = [line.centres[at], line.centres[at + 1], line.centres[at + 2]];
      if (clearance(strands, x, y, z) < longest) stopRing(strands, line.centres, section, k * line.n + i, radii);
    }
  }
}

/**
 * @param {Strands} strands
 * @param {Float64Array} centres
 * @param {Around} section
 * @param {number} place
 * @param {Float32Array} radii
 */
function stopRing(strands, centres, { across, flat, free, rays }, place, radii) {
  const at = 3 * place;
  for (let ray = 0; ray < rays; ray++) {
    const [cos, sin] = [free.cos[ray], free.sin[ray]];
    const [dx, dy, dz] = [0, 1, 2].map((c) => cos * across[at + c] + sin * flat[at + c]);
    const [x, y, z] = centres.subarray(at, at + 3);
    const off = (/** @type {number} */ r) => clearance(strands, x + r * dx, y + r * dy, z + r * dz);
    const full = radii[place * rays + ray];
    if (full > 0 && off(full) < 0) radii[place * rays + ray] = halved(off, full);
  }
}

/**
 * @param {(radius: number) => number} off
 * @param {number} full
 */
function halved(off, full) {
  let [good, bad] = [0, full];
  for (let step = 0; step < HALVINGS; step++) {
    const half = (good + bad) / 2;
    [good, bad] = off(half) >= 0 ? [half, bad] : [good, half];
  }
  return good;
}
