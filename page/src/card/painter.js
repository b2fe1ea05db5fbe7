// Draws panels: each a rope with its bodies, seen by one camera in one part of the canvas.

import { axesOf, sized } from "../geometry/camera.js";
import { VERTEX } from "../geometry/tubes.js";
import { add, dot, times } from "../geometry/vectors.js";
import { bits, bufferOf, checked, dropTarget, programOf, setUniforms, targetOf, whole } from "./gpu.js";
import { askNumbers, askedOf } from "./numbers.js";
import { drawRope, dropRope, ropeOnCard, skipOf } from "./ropes.js";
import {
  BODY_VERTEX, COMPOSE_FRAGMENT, NUMBERS_FRAGMENT, ROPE_VERTEX, WHOLE_VERTEX, bodyFragment, creviceFragment,
  ropeFragment,
} from "./shaders.js";

/**
 * @import {
 *   Asked, Camera, CutPlane, GL, Layer, OnCard, Painter, Panel, Program, Quality, Rect, Seen, Shape, ShownBody,
 *   Target,
 * } from "../types"
 */

const FINE_SHADE = 16;
const QUICK_SHADE = 6;
const LAMPS = { ambient: 0.32, diffuse: 0.72 };
const FLAT_LAMPS = { ambient: 0.8, diffuse: 0.25 };
const CLEAR_SHARE = 0.24; // of what is seen through in the colours of a picture
export const FIRST_BODY = 112; // numbers of bodies begin here, those of strands end before

/** @type {Record<string, () => [string, string]>} */
const TEXTS = {
  rope: () => [ROPE_VERTEX, ropeFragment(false)],
  "rope-cut": () => [ROPE_VERTEX, ropeFragment(true)],
  body: () => [BODY_VERTEX, bodyFragment(false)],
  "body-cut": () => [BODY_VERTEX, bodyFragment(true)],
  compose: () => [WHOLE_VERTEX, COMPOSE_FRAGMENT],
  quick: () => [WHOLE_VERTEX, creviceFragment(QUICK_SHADE)],
  fine: () => [WHOLE_VERTEX, creviceFragment(FINE_SHADE)],
  numbers: () => [WHOLE_VERTEX, NUMBERS_FRAGMENT],
};
const FIRST = ["rope", "body", "quick", "compose"]; // what a quick picture is drawn with; the others are made when needed

/**
 * What draws on a canvas. Raises where the browser has no WebGL2 or refuses the programs.
 * @param {HTMLCanvasElement} canvas
 * @returns {Painter}
 */
export function painterOf(canvas) {
  const gl = canvas.getContext("webgl2", { alpha: true, antialias: false, depth: false, premultipliedAlpha: true });
  if (!gl) throw new Error("this browser has no WebGL2");
  /** @type {Painter} */
  const p = { canvas, gl, programs: new Map(), patterns: new Map(), targets: new Map(), whole: gl.createVertexArray() };
  for (const name of FIRST) p.programs.set(name, programOf(gl, ...TEXTS[name]()));
  for (const made of p.programs.values()) checked(gl, made);
  return p;
}

/**
 * A program in use. Raises where the card refuses it.
 * @param {Painter} p
 * @param {string} name
 */
export function programNamed(p, name) {
  const made = p.programs.get(name) || checked(p.gl, programOf(p.gl, ...TEXTS[name]()));
  p.programs.set(name, made);
  p.gl.useProgram(made.program);
  return made;
}

/**
 * Draws next to nothing once, so that the card is ready to draw quickly before the first rope is there.
 * @param {Painter} p
 */
export function warmUp(p) {
  const rope = ropeOnCard(p.gl, {
    ...{ rays: 3, n: 2, strands: 1, refine: 1, count: Int32Array.of(2), station: Float64Array.of(0, 1) },
    ...{ axis: new Float32Array(6), radius: Float32Array.of(1, 1), vertices: new ArrayBuffer(VERTEX * 14) },
  });
  const camera = sized({ ...axesOf([0, 0, 1], [0, 1, 0]), centre: [0, 0, 0], scale: 1 }, 8, 8);
  /** @type {Layer} */
  const layer = { runs: [[0, 1]], startEnd: false, farEnd: false, whole: true };
  const none = { ...layer, runs: [] };
  const shape = { points: new Float32Array(9), normals: new Float32Array(9) };
  /** @type {ShownBody} */
  const body = {
    ...{ part: "", faces: 1, colour: [0, 0, 0], gloss: 0, flat: false, offset: [0, 0, 0], cut: false },
    ...{ shape, onCard: bodyOnCard(p.gl, shape) },
  };
  /** @type {Panel} */
  const panel = {
    ...{ rect: [0, 0, 8, 8], size: [8, 8], camera, rope, solid: layer, clear: none, bodies: [body], depths: [-1, 1] },
    ...{ cut: null, before: null, thick: 1, paint: {}, ink: [0, 0, 0] },
  };
  drawPanels(p, [panel], { pixel: 1, over: 1, shade: true, coarse: true });
  dropRope(p.gl, rope);
}

/**
 * A hard body put on the card, from corner points and normals.
 * @param {GL} gl
 * @param {Shape} shape
 * @returns {OnCard}
 */
export function bodyOnCard(gl, { points, normals }) {
  const array = gl.createVertexArray();
  gl.bindVertexArray(array);
  for (const [place, content] of [points, normals].entries()) {
    bufferOf(gl, gl.ARRAY_BUFFER, content);
    gl.enableVertexAttribArray(place);
    gl.vertexAttribPointer(place, 3, gl.FLOAT, false, 0, 0);
  }
  gl.bindVertexArray(null);
  return { array, count: points.length / 3 };
}

/**
 * @param {Painter} p
 * @param {string} name
 * @param {number} width
 * @param {number} height
 * @param {boolean} deep
 * @returns {Target}
 */
export function target(p, name, width, height, deep) {
  const had = p.targets.get(name);
  if (had && had.width === width && had.height === height) return had;
  if (had) dropTarget(p.gl, had);
  const made = targetOf(p.gl, width, height, deep);
  p.targets.set(name, made);
  return made;
}

/**
 * Draws all panels; quality: `pixel`, canvas pixels to one drawn, `over`, finer ones to that, `shade`, `coarse`;
 * `asked`: a list to which each panel's numbers are put that are then on their way.
 * @param {Painter} p
 * @param {Panel[]} panels
 * @param {Quality} quality
 */
export function drawPanels(p, panels, quality) {
  const { gl, canvas } = p;
  gl.bindFramebuffer(gl.FRAMEBUFFER, null);
  gl.disable(gl.SCISSOR_TEST);
  gl.clearColor(0, 0, 0, 0);
  gl.clear(gl.COLOR_BUFFER_BIT);
  for (const panel of panels) drawPanel(p, panel, quality);
  if (panels.length === 0) gl.viewport(0, 0, canvas.width, canvas.height);
}

/**
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Quality} quality
 */
function drawPanel(p, panel, quality) {
  shown(p, panel.rect, drawnPicture(p, panel, quality));
}

/**
 * A panel drawn by itself; its pixels are on their way from the card.
 * @param {Painter} p
 * @param {Panel} panel
 * @returns {Asked}
 */
export function askPixels(p, panel) {
  const picture = drawnPicture(p, panel, { pixel: 1, over: 2, shade: true, coarse: false, own: "inset " });
  return { buffer: askedOf(p.gl, picture), width: picture.width, height: picture.height, range: 1, nearest: 0 };
}

/**
 * A panel drawn into a picture of its own.
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Quality} quality
 */
function drawnPicture(p, panel, quality) {
  const [, , width, height] = panel.rect;
  const own = quality.own || "";
  const wide = Math.max(Math.round(width / quality.pixel), 1);
  const high = Math.max(Math.round(height / quality.pixel), 1);
  const view = viewOf(panel, wide * quality.over, high * quality.over);
  const solid = target(p, `${own}solid`, wide * quality.over, high * quality.over, true);
  drawSolid(p, panel, view, solid, quality);
  const layered = panel.clear.runs.length > 0 || panel.before;
  const clear = layered ? clearLayer(p, panel, view, solid, quality) : null;
  if (quality.shade) shadeOf(p, panel, view, solid, wide, high, quality);
  const picture = target(p, `${own}picture`, wide, high, false);
  composed(p, panel, view, { solid, clear, picture }, quality);
  if (quality.asked) quality.asked.push(askNumbers(p, panel, view, { solid, clear }, panel.size));
  return picture;
}

/**
 * Draws what isn't seen through.
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Seen} view
 * @param {Target} solid
 * @param {Quality} quality
 */
export function drawSolid(p, panel, view, solid, quality) {
  begin(p, solid);
  ropeLayer(p, panel, view, panel.solid, quality, panel.before ? LEFT_OUT : ALL);
  for (const [number, body] of panel.bodies.entries()) drawBody(p, panel, view, body, number);
}

/**
 * How a panel's camera sees: its projection, its turn, depth in mm behind the nearest point, mm to a pixel.
 * @param {Pick<Panel, "camera" | "depths" | "cut">} panel
 * @param {number} width
 * @param {number} height
 * @returns {Seen}
 */
export function viewOf({ camera, depths, cut }, width, height) {
  const { right, up, toward, centre } = camera;
  const range = depths[1] - depths[0];
  const across = [camera.halfWidth, camera.halfHeight, range / 2];
  const nearest = add(centre, times(toward, depths[1] - range / 2));
  const rows = [times(right, 1 / across[0]), times(up, 1 / across[1]), times(toward, -1 / across[2])];
  const project = new Float32Array(16);
  rows.forEach((row, r) => {
    for (let c = 0; c < 3; c++) project[4 * c + r] = row[c];
    project[12 + r] = -dot(row, r < 2 ? centre : nearest);
  });
  project[15] = 1;
  const turn = Float32Array.from([0, 1, 2].flatMap((c) => [right[c], up[c], toward[c]]));
  const pixel = (2 * camera.halfWidth) / width;
  return { project, turn, range, pixel, plane: planeInView(camera, cut, depths[1], pixel, width, height) };
}

/**
 * Depth of the cutting plane by pixel: (per column, per row, 1, at the first), or nothing where it is seen edge on.
 * @param {Camera} camera
 * @param {CutPlane | null} cut
 * @param {number} nearest
 * @param {number} pixel
 * @param {number} width
 * @param {number} height
 */
function planeInView({ right, up, toward, centre }, cut, nearest, pixel, width, height) {
  if (!cut || Math.abs(dot(cut.normal, toward)) < 1e-3) return [0, 0, 0, 0];
  const [x, y, z] = [right, up, toward].map((axis) => dot(cut.normal, axis));
  const off = cut.offset - dot(cut.normal, centre);
  const corner = (off + x * (width / 2 - 0.5) * pixel + y * (height / 2 - 0.5) * pixel) / z;
  return [(x / z) * pixel, (y / z) * pixel, 1, nearest - corner];
}

/**
 * @param {Painter} painter
 * @param {Target} target
 */
function begin({ gl }, { frame, width, height }) {
  gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
  gl.viewport(0, 0, width, height);
  gl.enable(gl.DEPTH_TEST);
  gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
}

/**
 * Draws surfaces: outsides only where all are closed; where they are cut open, insides first, a little nearer. An
 * inside that is seen shows a cut face, and wins over the outside of a body that it touches. Nearer by as much
 * everywhere: an offset by slope has no bound at silhouettes, and insides would show through there.
 * @param {GL} gl
 * @param {boolean} open
 * @param {() => void} draw
 */
function drawFaces(gl, open, draw) {
  gl.enable(gl.CULL_FACE);
  if (open) {
    gl.cullFace(gl.FRONT);
    gl.enable(gl.POLYGON_OFFSET_FILL);
    gl.polygonOffset(0, -16);
    draw();
    gl.disable(gl.POLYGON_OFFSET_FILL);
    gl.cullFace(gl.BACK);
  }
  draw();
  gl.disable(gl.CULL_FACE);
}

/** @param {CutPlane | null} cut */
const cutPlane = (cut) => (cut ? { cut: [...cut.normal, cut.offset] } : {});

const [ALL, LEFT_OUT, ALONE] = [0, 1, 2]; // what lies before a hole: drawn with the rest, left out, drawn alone

/**
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Seen} view
 * @param {Layer} layer
 * @param {Quality} quality
 * @param {number} way
 */
function ropeLayer(p, panel, view, layer, quality, way) {
  const { rope, paint, cut, before } = panel;
  const open = cut !== null || !layer.whole || way !== ALL;
  const made = programNamed(p, open ? "rope-cut" : "rope");
  setUniforms(p.gl, made, { project: view.project, turn: view.turn, ...paint, ...LAMPS, gloss: 0.15 });
  setUniforms(p.gl, made, { ...cutPlane(cut), cutMask: bits(cut ? cut.mask : 0) });
  setUniforms(p.gl, made, { ...before, beforeWay: whole(way) });
  const skip = skipOf(rope, (2.5 * panel.thick) / (view.pixel * quality.over), quality.coarse);
  drawFaces(p.gl, open, () => drawRope(p, rope, layer, panel.camera, skip));
}

/**
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Seen} view
 * @param {ShownBody} body
 * @param {number} number
 */
function drawBody(p, panel, view, body, number) {
  const { gl } = p;
  const cut = body.cut ? panel.cut : null;
  const made = programNamed(p, cut ? "body-cut" : "body");
  const lamps = body.flat ? FLAT_LAMPS : LAMPS;
  const group = FIRST_BODY + (number % 15);
  setUniforms(gl, made, { project: view.project, turn: view.turn, ...lamps, gloss: body.gloss, ...cutPlane(cut) });
  setUniforms(gl, made, { offset: body.offset, own: body.colour, group });
  gl.bindVertexArray(body.onCard.array);
  drawFaces(gl, cut !== null, () => gl.drawArrays(gl.TRIANGLES, 0, body.onCard.count));
}

/**
 * What is seen through, drawn where it stands before the rest.
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Seen} view
 * @param {Target} solid
 * @param {Quality} quality
 */
function clearLayer(p, panel, view, solid, quality) {
  const { gl } = p;
  const { width, height } = solid;
  const clear = target(p, `${quality.own || ""}clear`, width, height, true);
  begin(p, clear);
  gl.bindFramebuffer(gl.READ_FRAMEBUFFER, solid.frame);
  gl.bindFramebuffer(gl.DRAW_FRAMEBUFFER, clear.frame);
  gl.blitFramebuffer(0, 0, width, height, 0, 0, width, height, gl.DEPTH_BUFFER_BIT, gl.NEAREST);
  gl.bindFramebuffer(gl.FRAMEBUFFER, clear.frame);
  ropeLayer(p, panel, view, panel.clear, quality, ALL);
  if (panel.before) ropeLayer(p, panel, view, panel.solid, quality, ALONE);
  return clear;
}

/**
 * @param {GL} gl
 * @param {Program} made
 * @param {Record<string, WebGLTexture | null>} textures
 */
export function useTextures(gl, made, textures) {
  Object.entries(textures).forEach(([name, texture], unitNumber) => {
    gl.activeTexture(gl.TEXTURE0 + unitNumber);
    gl.bindTexture(gl.TEXTURE_2D, texture);
    setUniforms(gl, made, { [name]: whole(unitNumber) });
  });
}

/**
 * @param {Painter} p
 * @param {Target} into
 */
export function drawWhole(p, into) {
  const { gl } = p;
  gl.bindFramebuffer(gl.FRAMEBUFFER, into.frame);
  gl.viewport(0, 0, into.width, into.height);
  gl.disable(gl.DEPTH_TEST);
  gl.bindVertexArray(p.whole);
  gl.drawArrays(gl.TRIANGLES, 0, 3);
}

/**
 * How open every pixel lies; while moving every second one, each way.
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Seen} view
 * @param {Target} solid
 * @param {number} wide
 * @param {number} high
 * @param {Quality} quality
 */
function shadeOf(p, panel, view, solid, wide, high, quality) {
  const { gl } = p;
  const coarseness = quality.coarse ? 2 : 1;
  const made = programNamed(p, quality.coarse ? "quick" : "fine");
  const crevices = target(p, `${quality.own || ""}crevices`, Math.ceil(wide / coarseness), Math.ceil(high / coarseness), false);
  const scale = quality.over * coarseness;
  useTextures(gl, made, { colours: solid.colour, depths: solid.depth });
  setUniforms(gl, made, { scale: whole(scale), reach: panel.thick, pixel: view.pixel * scale });
  setUniforms(gl, made, { range: view.range, plane: view.plane });
  drawWhole(p, crevices);
}

/**
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Seen} view
 * @param {{ solid: Target, clear: Target | null, picture: Target }} layers
 * @param {Quality} quality
 */
function composed(p, panel, view, { solid, clear, picture }, quality) {
  const { gl } = p;
  const made = programNamed(p, "compose");
  const near = clear || solid;
  const crevices = (quality.shade && p.targets.get(`${quality.own || ""}crevices`)) || solid;
  useTextures(gl, made, {
    ...{ colours: solid.colour, depths: solid.depth, crevices: crevices.colour },
    ...{ clearColours: near.colour, clearDepths: near.depth },
  });
  const [spread, coarseness] = quality.coarse ? [1, 2] : [2, 1];
  setUniforms(gl, made, { scale: whole(quality.over), shaded: quality.shade });
  setUniforms(gl, made, { spread: whole(spread), coarseness: whole(coarseness) });
  setUniforms(gl, made, { layered: clear !== null, clearShare: CLEAR_SHARE });
  setUniforms(gl, made, { step: 0.3 * panel.thick, ink: panel.ink, range: view.range, plane: view.plane });
  drawWhole(p, picture);
}

/**
 * Copies a finished picture to its part of the canvas.
 * @param {Painter} painter
 * @param {Rect} rect
 * @param {Target} picture
 */
function shown({ gl, canvas }, [x, y, width, height], picture) {
  gl.bindFramebuffer(gl.READ_FRAMEBUFFER, picture.frame);
  gl.bindFramebuffer(gl.DRAW_FRAMEBUFFER, null);
  const [low, high] = [canvas.height - y - height, canvas.height - y];
  const same = picture.width === width && picture.height === height;
  const filter = same ? gl.NEAREST : gl.LINEAR;
  gl.blitFramebuffer(0, 0, picture.width, picture.height, x, low, x + width, high, gl.COLOR_BUFFER_BIT, filter);
}
