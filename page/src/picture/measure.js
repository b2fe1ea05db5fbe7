// Measuring between two places of the rope: picked on the picture, or marks chosen by name.

import { numberAt, numbersRound } from "../card/numbers.js";
import { hitStrand } from "../card/pick.js";
import { byId, control, drawing, element } from "../dom.js";
import { projected, sightLine } from "../geometry/camera.js";
import { add, minus, norm, times } from "../geometry/vectors.js";
import { lengthShown } from "../lengths.js";
import { ropeIn } from "../store.js";
import { redraw } from "./draw.js";
import { middleAt } from "./labels.js";
import { SHOWN, layerOf } from "./stage.js";

/** @import { App, Picked, Under, Written } from "../types" */

/**
 * The rope nearest to a spot of panel i, no farther off than `reach` CSS pixels: place, station; null where none is.
 * @param {App} app
 * @param {number} i
 * @param {number} x
 * @param {number} y
 * @param {number} reach
 * @returns {Picked | null}
 */
export function pickAt(app, i, x, y, reach) {
  const numbers = numbersRound(app, i, [x, y], reach);
  const found = numbers && nearestStrand(numbers, reach);
  const rope = ropeIn(app.store, app.pictures[i].state, true);
  if (!found || !rope) return null;
  const { dx, dy, strand, toward, open } = found;
  const picture = app.pictures[i];
  const line = sightLine(app.cameras[i], x + dx, y + dy);
  const { runs } = layerOf(rope, picture.paint, app.choices.parts, SHOWN);
  const hit = hitStrand(rope, line, runs, strand, -toward);
  if (!hit) return null;
  const place = open ? add(line.from, times(line.along, -toward)) : hit.place;
  return { place, station: hit.station, strand, panel: i };
}

/**
 * The drawn strand nearest to the middle of a small square of numbers: which, and how far off.
 * @param {Written} numbers
 * @param {number} reach
 * @returns {(Under & { dx: number, dy: number, away: number }) | null}
 */
function nearestStrand(numbers, reach) {
  let best = null;
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      const away = Math.hypot(dx, dy);
      if (away > reach || (best && away >= best.away)) continue;
      const found = numberAt(numbers, reach + dx, reach + dy);
      if (found && found.strand >= 0) best = { ...found, dx, dy, away };
    }
  }
  return best;
}

/**
 * Takes a picked place as the first or the second of two; a third begins anew.
 * @param {App} app
 * @param {Picked} found
 */
export function measureFrom(app, found) {
  const { points } = app.measured;
  if (points.length === 2 || (points.length === 1 && points[0].panel !== found.panel)) points.length = 0;
  points.push({ ...found, picture: app.pictures[found.panel] });
  showMeasured(app);
  redraw(app);
}

/**
 * Straight and along the rope between two places, mm.
 * @param {Picked[]} points
 */
export function measures([a, b]) {
  return { straight: norm(minus(b.place, a.place)), along: Math.abs(b.station - a.station) };
}

/** @param {App} app */
export function showMeasured(app) {
  const { points } = app.measured;
  const out = byId("measured");
  if (points.length < 2) {
    out.replaceChildren(element("p", { text: points.length ? "Now touch the second place." : "Nothing measured yet." }));
    return;
  }
  const { straight, along } = measures(points);
  const line = (/** @type {string} */ words, /** @type {number} */ mm) => [element("dt", { text: words }), element("dd", { text: lengthShown(mm, app.data.unit) })];
  out.replaceChildren(element("dl", {}, ...line("straight", straight), ...line("along the rope", along)));
}

/**
 * Measures between two marks of the picture, on the rope's middle line.
 * @param {App} app
 */
export function measureMarks(app) {
  const picture = app.pictures[0];
  const rope = ropeIn(app.store, picture.state, true);
  const chosen = ["mark-a", "mark-b"].flatMap((id) => picture.marks.filter(({ letter }) => letter === control(id).value));
  if (!rope || chosen.length < 2) return;
  const points = chosen.map(({ station }) => ({ place: middleAt(rope, station), station, panel: 0, picture }));
  app.measured.points = points;
  showMeasured(app);
  redraw(app);
}

/**
 * Measured places on the picture, and the straight line between them.
 * @param {App} app
 */
export function drawMeasured(app) {
  const spots = app.measured.points
    .filter(({ panel, picture }) => app.pictures[panel] === picture && app.cameras[panel])
    .map(({ place, panel }) => {
      const [x, y] = projected(app.cameras[panel], place);
      return [app.boxes[panel][0] + x, app.boxes[panel][1] + y];
    });
  if (spots.length === 2) {
    const [[x1, y1], [x2, y2]] = spots;
    for (const name of ["halo", "measure"]) app.over.append(drawing("line", { x1, y1, x2, y2, class: name }));
  }
  for (const [cx, cy] of spots) app.over.append(drawing("circle", { cx, cy, r: 5, class: "measure-spot" }));
}
