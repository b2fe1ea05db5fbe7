// How the picture is looked at: views, parts, the cut; and the panel for measuring.

import { byId, choice, control, element, focused, row, valueIn } from "../dom.js";
import { axesOf, sized, zoomed } from "../geometry/camera.js";
import { add, cross } from "../geometry/vectors.js";
import { ropeIn } from "../store.js";
import { fitCanvas } from "./boxes.js";
import { redraw } from "./draw.js";
import { lookInto, showInto } from "./into.js";
import { measureMarks, showMeasured } from "./measure.js";
import { CLEAR, HIDDEN, SHOWN, STANDING_PART, cutPlaceOf, standardCamera } from "./stage.js";

/** @import { App, Camera, Choices, Cut, CutWay, Held } from "../types" */

const CUTS = [
  ["off", "no cut"],
  ["across", "across the rope"],
  ["flat", "along, level"],
  ["upright", "along, upright"],
];
export const SIDEWAYS = ["across", "upright"];
const VIEWS = [
  ["corner", "from a corner"],
  ["above", "from above"],
  ["below", "from below"],
  ["left", "from the left"],
  ["right", "from the right"],
  ["captive", "from the captive end"],
  ["eye", "from the eye"],
];

const pair = (/** @type {string} */ a, /** @type {string} */ b) => /** @type {[string, string]} */ ([a, b]);

/** @param {App} app */
export function showLook(app) {
  const named = app.pictures.flatMap(({ paint }) => (paint ? paint.parts.map((part, i) => pair(part, paint.names[i])) : []));
  const read = focused();
  byId("parts").replaceChildren(...[...new Map(named)].map(([part, name]) => partRow(app, part, name)));
  if (!read.isConnected && document.getElementById(read.id)) byId(read.id).focus();
  showViews(app);
  showInto(app);
  if (read.closest("#corner") && read.offsetParent === null) app.canvas.focus();
  showCut(app);
  byId("see-through").setAttribute("aria-pressed", String(app.choices.parts[STANDING_PART] === CLEAR));
}

/**
 * @param {App} app
 * @param {string} part
 * @param {string} name
 */
function partRow(app, part, name) {
  const ways = [SHOWN, CLEAR, HIDDEN].map((value) => [value, value]);
  const onchange = (/** @type {Event} */ event) => choosePart(app, part, valueIn(event));
  const id = `part-${part}`;
  return row(name, choice({ id, onchange }, ways, app.choices.parts[part] || SHOWN));
}

/**
 * @param {App} app
 * @param {string} part
 * @param {string} value
 */
function choosePart(app, part, value) {
  app.choices.parts[part] = value;
  showLook(app);
  redraw(app);
}

/**
 * Sees through the standing part, in which the tail is buried, and back.
 * @param {App} app
 */
function seeThrough(app) {
  const clear = app.choices.parts[STANDING_PART] === CLEAR;
  choosePart(app, STANDING_PART, clear ? SHOWN : CLEAR);
}

/** @param {App} app */
function showViews(app) {
  const views = app.pictures[0].views || [];
  const own = views.map((_, i) => [`own-${i}`, i === 0 ? "the step's own" : "the step's other"]);
  const select = control("view");
  select.replaceChildren(...[...own, ...VIEWS].map(([value, text]) => element("option", { value, text })));
  select.value = `own-${app.view}`;
  byId("other").hidden = own.length < 2;
}

/**
 * Looks from a view of the step, or from a standard one.
 * @param {App} app
 * @param {string} value
 */
function chooseView(app, value) {
  app.into = null;
  showInto(app);
  if (value.startsWith("own-")) {
    app.view = Number(value.slice(4));
    app.cameras = [];
    fitCanvas(app);
  } else {
    app.pictures.forEach((picture, i) => {
      const [, , width, height] = app.boxes[i];
      if (picture.views) {
        app.cameras[i] = { ...standardCamera(picture, value, width, height, app.data.diameter), picture, moved: true };
      }
    });
  }
  control("view").value = value;
  redraw(app);
}

/** @param {App} app */
export function goHome(app) {
  chooseView(app, "own-0");
}

/**
 * The step's other view, where it has two.
 * @param {App} app
 */
function nextView(app) {
  const { views } = app.pictures[0];
  if (views) chooseView(app, `own-${(app.view + 1) % views.length}`);
}

/** @param {App} app */
function showCut(app) {
  const { cut } = app.choices;
  control("cut-way").value = cut.way;
  control("cut-only").value = cut.only;
  control("cut-place").value = String(cut.place);
  control("cut-place").disabled = cut.way === "off";
}

/**
 * @param {App} app
 * @param {Partial<Cut>} change
 */
function chooseCut(app, change) {
  const { cut } = app.choices;
  const was = cut.way;
  Object.assign(cut, change);
  if (cut.way !== was) cut.place = cut.way === "flat" ? 0.5 : cutPlace(app);
  if (cut.way !== was) app.into = null;
  showInto(app);
  if (SIDEWAYS.includes(cut.way)) app.pictures.forEach((_, i) => faceCut(app, i));
  else if (SIDEWAYS.includes(was)) goHome(app);
  showCut(app);
  redraw(app);
}

/**
 * Where a cut shows most, as a share of the rope's columns: in the finished bury, else through a hole.
 * @param {App} app
 */
function cutPlace(app) {
  const { state, marks } = app.pictures[0];
  const rope = ropeIn(app.store, state, false);
  const hole = marks.find(({ letter }) => letter === "H2") || marks[0];
  if (state === app.data.aim || !rope || !hole) return app.data.cutPlace;
  return (hole.station - rope.station[0]) / (rope.station[rope.n - 1] - rope.station[0]);
}

/**
 * Turns panel i to a cut that isn't seen from above: to one across the rope, from the side of the tail's end.
 * @param {App} app
 * @param {number} i
 */
export function faceCut(app, i) {
  const picture = app.pictures[i];
  const rope = ropeIn(app.store, picture.state, false);
  if (!rope) return;
  const [, , width, height] = app.boxes[i];
  const { cut } = app.choices;
  const { centre, along } = cutPlaceOf(cut, rope);
  const direction = cut.way === "across" ? add(along, [0, 0, 0.55]) : add(cross(along, [0, 0, 1]), [0, 0, 0.35]);
  const axes = axesOf(direction, [0, 0, 1]);
  const scale = Math.min(width, height) / ((cut.way === "across" ? 6 : 9) * app.data.diameter);
  app.cameras[i] = { ...sized({ ...axes, centre, scale }, width, height), picture, moved: true };
}

/** @type {[string, string, (choices: Choices, on: boolean) => void, (choices: Choices) => boolean][]} */
const SWITCHES = [
  ["terminator", "terminator", (c, on) => (c.bodies.terminator = on), (c) => c.bodies.terminator],
  ["tools", "fids and other tools", (c, on) => (c.bodies.tools = on), (c) => c.bodies.tools],
  ["arrow", "arrow for what moves", (c, on) => (c.bodies.arrow = on), (c) => c.bodies.arrow],
  ["letters", "marks with their letters", (c, on) => (c.marks = on), (c) => c.marks],
  ["labels", "other labels", (c, on) => (c.words = on), (c) => c.words],
  ["numbers", "numbers on the strands", (c, on) => (c.numbers = on), (c) => c.numbers],
  ["ghost", "where the rope lay before", (c, on) => (c.ghost = on), (c) => c.ghost],
];

/**
 * The panel's fixed controls, made once.
 * @param {App} app
 */
export function makeLook(app) {
  const box = (/** @type {typeof SWITCHES[number]} */ [id, words, set, get]) => {
    const input = element("input", { type: "checkbox", id: `show-${id}`, checked: get(app.choices) });
    input.addEventListener("change", () => {
      set(app.choices, input.checked);
      redraw(app);
    });
    return element("div", { class: "tick" }, input, element("label", { for: `show-${id}`, text: words }));
  };
  byId("switches").replaceChildren(...SWITCHES.map(box));
  byId("view").addEventListener("change", (event) => chooseView(app, valueIn(event)));
  byId("home").addEventListener("click", () => goHome(app));
  byId("other").addEventListener("click", () => nextView(app));
  byId("nearer").addEventListener("click", () => zoomAll(app, 1.35));
  byId("farther").addEventListener("click", () => zoomAll(app, 1 / 1.35));
  byId("see-through").addEventListener("click", () => seeThrough(app));
  byId("into").addEventListener("click", () => lookInto(app));
  byId("cut-way").replaceChildren(...CUTS.map(([value, text]) => element("option", { value, text })));
  byId("cut-way").addEventListener("change", (event) => chooseCut(app, { way: /** @type {CutWay} */ (valueIn(event)) }));
  byId("cut-only").addEventListener("change", (event) => chooseCut(app, { only: /** @type {Cut["only"]} */ (valueIn(event)) }));
  byId("cut-place").addEventListener("input", (event) => chooseCut(app, { place: Number(valueIn(event)) }));
  for (const id of ["mark-a", "mark-b"]) byId(id).addEventListener("change", () => measureMarks(app));
  byId("measure-clear").addEventListener("click", () => {
    app.measured.points = [];
    showMeasured(app);
    redraw(app);
  });
}

/**
 * @param {App} app
 * @param {number} factor
 */
export function zoomAll(app, factor) {
  moveCameras(app, (camera) => zoomed(camera, factor, [0, 0]));
}

/**
 * Changes the cameras of all panels alike.
 * @param {App} app
 * @param {(camera: Held) => Camera} change
 */
export function moveCameras(app, change) {
  app.cameras = app.cameras.map((camera) => camera && { ...change(camera), picture: camera.picture, moved: true });
  redraw(app);
}

/** @param {App} app */
export function showMeasurePanel(app) {
  const letters = (app.pictures[0].marks || []).map(({ letter }) => [letter, letter]);
  for (const id of ["mark-a", "mark-b"]) {
    const options = [["", "a mark"], ...letters].map(([value, text]) => element("option", { value, text }));
    byId(id).replaceChildren(...options);
  }
  showMeasured(app);
}
