// From packed centre lines to tubes; runs in a worker, or in the page where a worker can't be had.

import { strandsOf } from "./decode.js";
import { partOf, sectionsOf } from "./sections.js";
import { tubesOf } from "./tubes.js";

/** @import { Making, Port, Tubes } from "../types" */

const PART = { rays: 8, refine: 1, stride: 2 }; // of the very first picture, which whole tubes replace at once
const COARSE = { rays: 12, refine: 1 };
const FINE = { rays: 24, refine: 0 };

/**
 * One state's tubes at a level; `only` the rope between two stations, where it is given.
 * @param {Making} making
 * @returns {Promise<Tubes>}
 */
export async function make({ record, fine, law, only }) {
  const strands = await strandsOf(record, record.text);
  if (only) {
    const part = partOf(strands, only, PART.stride);
    return tubesOf(part, sectionsOf(part, PART.rays, PART.refine, law, only));
  }
  const { rays, refine } = fine ? FINE : COARSE;
  return tubesOf(strands, sectionsOf(strands, rays, refine, law));
}

/**
 * Answers a worker's requests, one after the other.
 * @param {Port} port
 */
export function serve(port) {
  port.onmessage = async ({ data: order }) => {
    try {
      const tubes = await make(order);
      const buffers = Object.values(tubes).map((value) => value.buffer || value);
      port.postMessage({ tubes }, buffers.filter((buffer) => buffer instanceof ArrayBuffer));
    } catch (problem) {
      port.postMessage({ problem: String(problem) });
    }
  };
}
