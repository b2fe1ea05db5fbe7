// Packed bytes back to numbers. Layout: encoding.py.

/** @import { BodiesRecord, Mesh, StateRecord, Strands } from "../types" */

const CRC_TABLE = (() => {
  const table = new Uint32Array(256);
  for (let i = 0; i < 256; i++) {
    let value = i;
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
    table[i] = value;
  }
  return table;
})();

/**
 * CRC-32 (IEEE 802.3) of ASCII text, as encoding.py works it out.
 * @param {string} text
 */
export function crc32(text) {
  let crc = 0xffffffff;
  for (let i = 0; i < text.length; i++) crc = CRC_TABLE[(crc ^ text.charCodeAt(i)) & 255] ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}

/**
 * Bytes of base64 text, inflated.
 * @param {string} text
 * @returns {Promise<Uint8Array>}
 */
async function inflated(text) {
  const packed = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/**
 * Whole numbers from byte planes (all low bytes, then all next ones), zigzag undone.
 * @param {Uint8Array} bytes
 * @param {number} planes
 */
function unplaned(bytes, planes) {
  const total = bytes.length / planes;
  const out = new Int32Array(total);
  for (let i = 0; i < total; i++) {
    let value = 0;
    for (let plane = planes - 1; plane >= 0; plane--) value = value * 256 + bytes[plane * total + i];
    out[i] = value & 1 ? -(value + 1) / 2 : value / 2;
  }
  return out;
}

/**
 * One coordinate of one strand from its first three values and third differences, into `points`.
 * @param {number[]} first
 * @param {Int32Array} differences
 * @param {number} from
 * @param {number} count
 * @param {number} quantum
 * @param {Float64Array} points
 * @param {number} at
 */
function summed(first, differences, from, count, quantum, points, at) {
  let [a, b, c] = [first[0], first[1] - first[0], first[2] - 2 * first[1] + first[0]];
  for (let i = 0; i < count; i++) {
    points[at + 3 * i] = a * quantum;
    a += b;
    b += c;
    if (i < count - 3) c += differences[from + i];
  }
}

/**
 * Strands of one packed state: points `(strands, n, 3)` mm; beyond its count a strand repeats its last point.
 * @param {StateRecord} record
 * @param {string} text
 * @returns {Promise<Strands>}
 */
export async function strandsOf(record, text) {
  const { strands, columns, count, first, quantum } = record;
  const differences = unplaned(await inflated(text), record.planes);
  const points = new Float64Array(strands * columns * 3);
  let from = 0;
  for (let k = 0; k < strands; k++) {
    for (let axis = 0; axis < 3; axis++) {
      summed(first[3 * k + axis], differences, from, count[k], quantum, points, 3 * k * columns + axis);
      from += count[k] - 3;
    }
    repeatLast(points, k * columns, count[k], columns);
  }
  return { ...record, points, station: stationsOf(record), packing: packingOf(record) };
}

/**
 * @param {Float64Array} points
 * @param {number} row
 * @param {number} count
 * @param {number} columns
 */
function repeatLast(points, row, count, columns) {
  const last = 3 * (row + count - 1);
  for (let i = count; i < columns; i++) points.copyWithin(3 * (row + i), last, last + 3);
}

/** @param {StateRecord} state */
function stationsOf({ columns, station }) {
  return Float64Array.from({ length: columns }, (_, i) => station[0] + i * station[1]);
}

/**
 * Share of its free thickness a strand keeps, by column; the record keeps it where it changes slope.
 * @param {StateRecord} state
 */
function packingOf({ columns, packing }) {
  const out = new Float64Array(columns);
  for (let part = 0; part < packing.length - 1; part++) {
    const [[i, low], [j, high]] = [packing[part], packing[part + 1]];
    for (let at = i; at <= j; at++) out[at] = low + ((high - low) * (at - i)) / Math.max(j - i, 1);
  }
  return out;
}

/**
 * A packed mesh: points `(v, 3)` mm and triangles `(f, 3)`.
 * @param {Pick<BodiesRecord, "quantum" | "pointPlanes" | "facePlanes">} record
 * @param {string} pointText
 * @param {string} faceText
 * @returns {Promise<Mesh>}
 */
export async function meshOf(record, pointText, faceText) {
  const [points, faces] = [await inflated(pointText), await inflated(faceText)];
  const steps = unplaned(points, record.pointPlanes);
  const out = new Float32Array(steps.length);
  for (let i = 0; i < steps.length; i++) {
    steps[i] += i >= 3 ? steps[i - 3] : 0;
    out[i] = steps[i] * record.quantum;
  }
  const index = Uint32Array.from(running(unplaned(faces, record.facePlanes)));
  return { points: out, faces: index };
}

/** @param {Int32Array} steps */
function running(steps) {
  for (let i = 1; i < steps.length; i++) steps[i] += steps[i - 1];
  return steps;
}
