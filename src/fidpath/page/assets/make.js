// From packed centre lines to tubes; runs in a worker, or in the page where a worker can't be had.

const COARSE = { rays: 12, refine: 1 };
const FINE = { rays: 24, refine: 0 };

/** One state's tubes at a level; raises where its text isn't what its record says. */
async function make(record, text, fine, law) {
  const strands = await strandsOf(record, text);
  const { rays, refine } = fine ? FINE : COARSE;
  return tubesOf(strands, sectionsOf(strands, rays, refine, law));
}

/** Answers a worker's requests, one after the other. */
function serve(port) {
  port.onmessage = async ({ data: { number, record, text, fine, law } }) => {
    try {
      const tubes = await make(record, text, fine, law);
      const buffers = Object.values(tubes).map((value) => value.buffer || value);
      port.postMessage({ number, tubes }, buffers.filter((buffer) => buffer instanceof ArrayBuffer));
    } catch (problem) {
      port.postMessage({ number, problem: String(problem) });
    }
  };
}
