// Thin helpers over WebGL2.

/** @import { GL, Program, Target, Uniform, Uniforms } from "../types" */

/**
 * A program, its uniforms by name. Raises where the card won't have it.
 * @param {GL} gl
 * @param {string} vertex
 * @param {string} fragment
 * @returns {Program}
 */
export function programOf(gl, vertex, fragment) {
  const program = gl.createProgram();
  attachShader(gl, program, gl.VERTEX_SHADER, vertex);
  attachShader(gl, program, gl.FRAGMENT_SHADER, fragment);
  gl.linkProgram(program);
  return { program, at: new Map() };
}

/**
 * @param {GL} gl
 * @param {WebGLProgram} program
 * @param {number} kind
 * @param {string} text
 */
function attachShader(gl, program, kind, text) {
  const shader = gl.createShader(kind);
  if (!shader) return; // a lost card has none: what asks whether the program is linked says so
  gl.shaderSource(shader, text);
  gl.compileShader(shader);
  gl.attachShader(program, shader);
}

/**
 * Waits for a program's linking; raises with the card's own words where it failed.
 * @param {GL} gl
 * @param {Program} made
 */
export function checked(gl, made) {
  if (!gl.getProgramParameter(made.program, gl.LINK_STATUS)) {
    const shaders = (gl.getAttachedShaders(made.program) || []).map((shader) => gl.getShaderInfoLog(shader));
    throw new Error(`the graphics card refuses the drawing program: ${gl.getProgramInfoLog(made.program)} ${shaders}`);
  }
  return made;
}

/**
 * Sets uniforms by name; those that a program hasn't are passed over.
 * @param {GL} gl
 * @param {Program} made
 * @param {Uniforms} values
 */
export function setUniforms(gl, made, values) {
  for (const [name, value] of Object.entries(values)) {
    if (!made.at.has(name)) made.at.set(name, gl.getUniformLocation(made.program, name));
    const at = made.at.get(name);
    if (at && value !== undefined) setUniform(gl, at, value);
  }
}

/**
 * @param {GL} gl
 * @param {WebGLUniformLocation} at
 * @param {Uniform} value
 */
function setUniform(gl, at, value) {
  if (typeof value === "number") gl.uniform1f(at, value);
  else if (typeof value === "boolean") gl.uniform1i(at, value ? 1 : 0);
  else if ("whole" in value) gl.uniform1i(at, value.whole);
  else if ("bits" in value) gl.uniform1uiv(at, value.bits);
  else if ("list" in value) setList(gl, at, value.size, value.list);
  else if (value.length === 16) gl.uniformMatrix4fv(at, false, value);
  else if (value.length === 9) gl.uniformMatrix3fv(at, false, value);
  else setList(gl, at, value.length, value);
}

/**
 * Numbers or vectors of so many of them.
 * @param {GL} gl
 * @param {WebGLUniformLocation} at
 * @param {number} size
 * @param {number[] | Float32Array} values
 */
function setList(gl, at, size, values) {
  if (size === 1) gl.uniform1fv(at, values);
  else if (size === 2) gl.uniform2fv(at, values);
  else if (size === 3) gl.uniform3fv(at, values);
  else gl.uniform4fv(at, values);
}

/** @param {number} value */
export const whole = (value) => ({ whole: value });
/** @param {...number} values */
export const bits = (...values) => ({ bits: Uint32Array.from(values) });
/**
 * @param {number} size
 * @param {(number | number[])[]} values
 */
export const list = (size, values) => ({ size, list: Float32Array.from(values.flat()) });

/**
 * @param {GL} gl
 * @param {number} kind
 * @param {AllowSharedBufferSource} content
 */
export function bufferOf(gl, kind, content) {
  const buffer = gl.createBuffer();
  gl.bindBuffer(kind, buffer);
  gl.bufferData(kind, content, gl.STATIC_DRAW);
  return buffer;
}

/**
 * @param {GL} gl
 * @param {number} inside
 * @param {number} format
 * @param {number} type
 * @param {number} width
 * @param {number} height
 */
function textureOf(gl, inside, format, type, width, height) {
  const texture = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, texture);
  gl.texImage2D(gl.TEXTURE_2D, 0, inside, width, height, 0, format, type, null);
  for (const [name, value] of [
    [gl.TEXTURE_MIN_FILTER, gl.NEAREST],
    [gl.TEXTURE_MAG_FILTER, gl.NEAREST],
    [gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE],
    [gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE],
  ]) {
    gl.texParameteri(gl.TEXTURE_2D, name, value);
  }
  return texture;
}

/**
 * Something to draw into: colour, and depth where asked for.
 * @param {GL} gl
 * @param {number} width
 * @param {number} height
 * @param {boolean} deep
 * @returns {Target}
 */
export function targetOf(gl, width, height, deep) {
  const frame = gl.createFramebuffer();
  const colour = textureOf(gl, gl.RGBA8, gl.RGBA, gl.UNSIGNED_BYTE, width, height);
  gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
  gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, colour, 0);
  const depth = deep && textureOf(gl, gl.DEPTH_COMPONENT24, gl.DEPTH_COMPONENT, gl.UNSIGNED_INT, width, height);
  if (deep) gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.TEXTURE_2D, depth, 0);
  return { frame, colour, depth, width, height };
}

/**
 * @param {GL} gl
 * @param {Target} target
 */
export function dropTarget(gl, target) {
  gl.deleteFramebuffer(target.frame);
  gl.deleteTexture(target.colour);
  if (target.depth) gl.deleteTexture(target.depth);
}
