// What lies under a pixel, as numbers that the card has written: read back without waiting for it.

import { sightLine, sized } from "../geometry/camera.js";
import { panelOf } from "../picture/stage.js";
import { setUniforms } from "./gpu.js";
import { FIRST_BODY, drawSolid, drawWhole, programNamed, target, useTextures, viewOf } from "./painter.js";

/** @import { App, Asked, GL, Painter, Panel, Seen, Spot, Target, Under, Written } from "../types" */

const POLL = 8; // ms between questions whether the card is done

/**
 * Asks for a drawn panel's numbers, one place to a CSS pixel; they are on their way once the card has come to it.
 * @param {Painter} p
 * @param {Panel} panel
 * @param {Seen} view
 * @param {{ solid: Target, clear: Target | null }} layers
 * @param {Spot} size
 * @returns {Asked}
 */
export function askNumbers(p, panel, view, { solid, clear }, [width, height]) {
  const { gl } = p;
  const into = target(p, "numbers", width, height, false);
  const made = programNamed(p, "numbers");
  useTextures(gl, made, { ...texturesOf(solid), clearColours: (clear || solid).colour });
  setUniforms(gl, made, { scale: [solid.width / width, solid.height / height], layered: clear !== null });
  setUniforms(gl, made, { range: view.range, plane: view.plane });
  drawWhole(p, into);
  return { buffer: askedOf(gl, into), width, height, range: view.range, nearest: panel.depths[1] };
}

/**
 * A buffer into which the card copies what it has drawn, once it comes to it.
 * @param {GL} gl
 * @param {Target} drawn
 */
export function askedOf(gl, { frame, width, height }) {
  const buffer = gl.createBuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
  gl.bindBuffer(gl.PIXEL_PACK_BUFFER, buffer);
  gl.bufferData(gl.PIXEL_PACK_BUFFER, 4 * width * height, gl.STREAM_READ);
  gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, 0);
  gl.bindBuffer(gl.PIXEL_PACK_BUFFER, null);
  return buffer;
}

/** @param {Target} target */
const texturesOf = ({ colour, depth }) => ({ colours: colour, depths: depth });

/**
 * Waits until the card is done with what it was asked for; gives up where the card is lost.
 * @param {Painter} painter
 */
export function cardDone({ gl }) {
  const sync = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
  if (!sync) return Promise.resolve(false);
  gl.flush();
  return new Promise((resolve) => {
    const look = () => {
      const lost = gl.isContextLost();
      if (lost || gl.getSyncParameter(sync, gl.SYNC_STATUS) === gl.SIGNALED) resolve(!lost);
      else setTimeout(look, POLL);
    };
    look();
  });
}

/**
 * The numbers that were asked for, from the card.
 * @param {Painter} painter
 * @param {Asked} asked
 * @returns {Written}
 */
export function readNumbers({ gl }, { buffer, ...asked }) {
  const bytes = new Uint8Array(4 * asked.width * asked.height);
  gl.bindBuffer(gl.PIXEL_PACK_BUFFER, buffer);
  gl.getBufferSubData(gl.PIXEL_PACK_BUFFER, 0, bytes);
  gl.bindBuffer(gl.PIXEL_PACK_BUFFER, null);
  gl.deleteBuffer(buffer);
  return { ...asked, bytes };
}

/**
 * What is drawn at a place in a panel: a strand's number or -1, how far toward the viewer, cut open or not.
 * @param {Written} numbers
 * @param {number} x
 * @param {number} y
 * @returns {Under | null}
 */
export function numberAt({ width, height, bytes, range, nearest }, x, y) {
  const [column, row] = [Math.floor(x), height - 1 - Math.floor(y)];
  if (column < 0 || row < 0 || column >= width || row >= height) return null;
  const at = 4 * (row * width + column);
  const group = bytes[at] & 127;
  if (group === 0) return bytes[at + 3] ? { strand: -1, toward: -Infinity, open: false } : null;
  const depth = ((bytes[at + 1] * 256 + bytes[at + 2]) / 65535) * range;
  return { strand: group < FIRST_BODY ? group - 1 : -1, toward: nearest - depth, open: bytes[at] > 127 };
}

/**
 * The numbers of a small square of panel i, drawn for that now. `reach`: CSS pixels round its middle.
 * @param {App} app
 * @param {number} i
 * @param {Spot} spot
 * @param {number} reach
 * @returns {Written | null}
 */
export function numbersRound(app, i, [x, y], reach) {
  const { painter, cameras, pictures } = app;
  const size = 2 * reach + 1;
  const { from } = sightLine(cameras[i], x, y);
  const camera = sized({ ...cameras[i], centre: from }, size, size);
  const panel = panelOf(app, pictures[i], [0, 0, size, size], camera, true);
  if (!panel) return null;
  const view = viewOf(panel, size, size);
  const solid = target(painter, "round", size, size, true);
  drawSolid(painter, panel, view, solid, { pixel: 1, over: 1, shade: false, coarse: false });
  return readNumbers(painter, askNumbers(painter, panel, view, { solid, clear: null }, [size, size]));
}
