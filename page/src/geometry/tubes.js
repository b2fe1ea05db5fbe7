// Closed tubes from sections, as bytes for the graphics card: 20 a vertex (place, normal and strand, station).

import { distanceAt, dotAt } from "./sections.js";

/** @import { Mesh, Sections, Shape, Strands, Tubes, Writer } from "../types" */

export const VERTEX = 20;

/**
 * Everything the painter needs of one state at one level; all buffers can be handed from thread to thread.
 * @param {Strands} strands
 * @param {Sections} sections
 * @returns {Tubes}
 */
export function tubesOf(strands, sections) {
  const { n, rays, count, station } = sections;
  const total = strands.strands * (n * rays + 2 * (rays + 1));
  const writer = vertexWriter(total);
  for (let k = 0; k < strands.strands; k++) writeSides(writer, sections, k);
  for (let k = 0; k < strands.strands; k++) writeCap(writer, sections, k, 0, -1);
  for (let k = 0; k < strands.strands; k++) writeCap(writer, sections, k, count[k] - 1, 1);
  return {
    vertices: writer.buffer,
    strands: strands.strands,
    n,
    rays,
    refine: sections.refine,
    count: Int32Array.from(count),
    station: Float64Array.from(station),
    axis: Float32Array.from(sections.axis),
    radius: widths(sections),
  };
}

/**
 * @param {number} total
 * @returns {Writer}
 */
function vertexWriter(total) {
  const buffer = new ArrayBuffer(total * VERTEX);
  return { buffer, floats: new Float32Array(buffer), bytes: new Int8Array(buffer), at: 0 };
}

/**
 * @param {Writer} writer
 * @param {number} x
 * @param {number} y
 * @param {number} z
 * @param {number} nx
 * @param {number} ny
 * @param {number} nz
 * @param {number} strand
 * @param {number} station
 */
function writeVertex(writer, x, y, z, nx, ny, nz, strand, station) {
  const at = writer.at++;
  const { floats, bytes } = writer;
  floats[5 * at] = x;
  floats[5 * at + 1] = y;
  floats[5 * at + 2] = z;
  bytes[VERTEX * at + 12] = Math.round(127 * nx);
  bytes[VERTEX * at + 13] = Math.round(127 * ny);
  bytes[VERTEX * at + 14] = Math.round(127 * nz);
  bytes[VERTEX * at + 15] = strand;
  floats[5 * at + 4] = station;
}

/**
 * The rings of strand k with outward normals; rows beyond its count repeat the last one.
 * @param {Writer} writer
 * @param {Sections} sections
 * @param {number} k
 */
function writeSides(writer, { n, rays, rings, count, station }, k) {
  const last = count[k] - 1;
  for (let i = 0; i < n; i++) {
    const row = 3 * rays * (k * n + Math.min(i, last));
    const before = 3 * rays * (k * n + Math.max(Math.min(i, last) - 1, 0));
    const after = 3 * rays * (k * n + Math.min(i + 1, last));
    for (let ray = 0; ray < rays; ray++) {
      const here = row + 3 * ray;
      const one = row + 3 * (ray + 1 < rays ? ray + 1 : 0);
      const other = row + 3 * (ray > 0 ? ray - 1 : rays - 1);
      const ax = rings[one] - rings[other];
      const ay = rings[one + 1] - rings[other + 1];
      const az = rings[one + 2] - rings[other + 2];
      const bx = rings[after + 3 * ray] - rings[before + 3 * ray];
      const by = rings[after + 3 * ray + 1] - rings[before + 3 * ray + 1];
      const bz = rings[after + 3 * ray + 2] - rings[before + 3 * ray + 2];
      const x = ay * bz - az * by;
      const y = az * bx - ax * bz;
      const z = ax * by - ay * bx;
      const size = Math.max(Math.sqrt(x * x + y * y + z * z), 1e-12);
      const u = station[Math.min(i, last)];
      writeVertex(writer, rings[here], rings[here + 1], rings[here + 2], x / size, y / size, z / size, k, u);
    }
  }
}

/**
 * A flat cap at section i of strand k: its rim, then its hub.
 * @param {Writer} writer
 * @param {Sections} sections
 * @param {number} k
 * @param {number} i
 * @param {number} way
 */
function writeCap(writer, { n, rays, rings, centres, tangents, station }, k, i, way) {
  const at = 3 * (k * n + i);
  const [nx, ny, nz] = [way * tangents[at], way * tangents[at + 1], way * tangents[at + 2]];
  for (let ray = 0; ray < rays; ray++) {
    const m = 3 * ((k * n + i) * rays + ray);
    writeVertex(writer, rings[m], rings[m + 1], rings[m + 2], nx, ny, nz, k, station[i]);
  }
  writeVertex(writer, centres[at], centres[at + 1], centres[at + 2], nx, ny, nz, k, station[i]);
}

/**
 * Greatest distance of a drawn point from the rope's middle, by column `(n,)` mm.
 * @param {Sections} sections
 */
function widths({ strands, n, rays, rings, count, axis }) {
  const out = new Float32Array(n);
  for (let k = 0; k < strands; k++) {
    for (let i = 0; i < count[k]; i++) {
      for (let ray = 0; ray < rays; ray++) {
        out[i] = Math.max(out[i], distanceAt(rings, 3 * ((k * n + i) * rays + ray), axis, 3 * i));
      }
    }
  }
  return out;
}

/**
 * Triangles between `count` rings of `rays` points, every `along`-th ring and every `skip`-th ray of them.
 * @param {number} count
 * @param {number} rays
 * @param {number} skip
 * @param {number} along
 */
export function ringIndex(count, rays, skip, along) {
  const around = Math.floor(rays / skip);
  const out = new Uint16Array(Math.floor((count - 1) / along) * around * 6);
  let at = 0;
  for (let i = 0; i + along < count; i += along) {
    for (let ray = 0; ray < around; ray++) {
      const [a, b] = [i * rays + ray * skip, i * rays + ((ray + 1) % around) * skip];
      const up = along * rays;
      out.set([a, b, b + up, a, b + up, a + up], at);
      at += 6;
    }
  }
  return out;
}

/**
 * Triangles of `number` caps of `rays` points that follow one another; `way` -1 for those that face backward.
 * @param {number} number
 * @param {number} rays
 * @param {number} way
 */
export function capIndex(number, rays, way) {
  const out = [];
  for (let cap = 0; cap < number; cap++) {
    const first = cap * (rays + 1);
    for (let ray = 0; ray < rays; ray++) {
      const [a, b] = [first + ray, first + ((ray + 1) % rays)];
      out.push(...(way > 0 ? [a, b] : [b, a]), first + rays);
    }
  }
  return Uint16Array.from(out);
}

/**
 * Normals of a hard-edged body: each corner's is the mean of the faces round it that lean less than `most` radians.
 * @param {Mesh} mesh
 * @param {number} most
 * @returns {Shape}
 */
export function creased({ points, faces }, most) {
  const normals = faceNormals(points, faces);
  const { starts, order } = cornersRound(points.length / 3, faces);
  const least = Math.cos(most);
  const [out, place] = [new Float32Array(3 * faces.length), new Float32Array(3 * faces.length)];
  for (let corner = 0; corner < faces.length; corner++) {
    const [own, point, to] = [corner - (corner % 3), faces[corner], 3 * corner];
    let near = 0;
    for (let m = starts[point]; m < starts[point + 1]; m++) {
      const other = order[m] - (order[m] % 3);
      if (dotAt(normals, own, normals, other) <= least) continue;
      near += 1;
      for (let c = 0; c < 3; c++) out[to + c] += normals[other + c];
    }
    for (let c = 0; c < 3; c++) {
      out[to + c] /= near;
      place[to + c] = points[3 * point + c];
    }
  }
  return { points: place, normals: out };
}

/**
 * Corners of faces by the point that they lie at: those of point p are `order[starts[p]]` and on.
 * @param {number} points
 * @param {Uint32Array} faces
 */
function cornersRound(points, faces) {
  const starts = new Int32Array(points + 1);
  for (const point of faces) starts[point + 1] += 1;
  for (let p = 0; p < points; p++) starts[p + 1] += starts[p];
  const [free, order] = [starts.slice(), new Int32Array(faces.length)];
  for (let corner = 0; corner < faces.length; corner++) order[free[faces[corner]]++] = corner;
  return { starts, order };
}

/**
 * Unit normals of faces, by the place of their first corner.
 * @param {Float32Array} points
 * @param {Uint32Array} faces
 */
function faceNormals(points, faces) {
  const out = new Float32Array(faces.length);
  for (let f = 0; f < faces.length; f += 3) {
    const [a, b, c] = [3 * faces[f], 3 * faces[f + 1], 3 * faces[f + 2]];
    const [ux, uy, uz] = [points[b] - points[a], points[b + 1] - points[a + 1], points[b + 2] - points[a + 2]];
    const [vx, vy, vz] = [points[c] - points[a], points[c + 1] - points[a + 1], points[c + 2] - points[a + 2]];
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const size = Math.max(Math.sqrt(x * x + y * y + z * z), 1e-12);
    out[f] = x / size;
    out[f + 1] = y / size;
    out[f + 2] = z / size;
  }
  return out;
}
