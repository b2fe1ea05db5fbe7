// The page's Python at work: MicroPython with the program's modules (any_rope/page_python.py) and the compiled loops.

import { Kernels } from "./kernels.js";
import { module } from "./nd.js";

/** @typedef {import("./arrays.js").Ndarray} Ndarray */
/** @typedef {import("./kernels.js").Signature} Signature */

/**
 * What the engine needs of MicroPython.
 * @typedef {{
 *   runPython(text: string): unknown,
 *   registerJsModule(name: string, module: object): void,
 *   globals: { get(name: string): any, set(name: string, value: unknown): void },
 *   FS: { mkdir(path: string): void, writeFile(path: string, text: string): void },
 * }} Python
 */

const HOME = "/fidpath-page";

export class Engine {
  /** @type {Record<string, Ndarray>} */
  #given = {};
  /** @type {(share: number) => void} */
  #tell = () => {};

  /**
   * @param {Python} python freshly loaded
   * @param {Record<string, string>} files its modules: path -> text
   * @param {WebAssembly.Module} loops
   * @param {Record<string, Signature>} signatures
   */
  constructor(python, files, loops, signatures) {
    this.python = python;
    const give = (/** @type {string} */ name, /** @type {Ndarray} */ array) => void (this.#given[name] = array);
    python.registerJsModule("nd", module(new Kernels(loops, signatures), give, (share) => this.#tell(share)));
    write(python.FS, files);
    python.runPython(`import sys\nsys.path.insert(0, "${HOME}")\nimport asked`);
  }

  /** The plan of a job given as plain data, or `{ refused }`. @param {object} job @returns {Record<string, any>} */
  plan(job) {
    return JSON.parse(this.#asked(`asked.plan_of(given)`, JSON.stringify(job)));
  }

  /** Strands of a state of the last plan, before settling. @param {string} kind */
  draft(kind) {
    this.#asked(`asked.draft_of(given)`, kind);
    return { laid: this.#given.laid, thin: this.#given.thin };
  }

  /** The last draft settled; what `tell` throws ends it. @param {(share: number) => void} tell */
  settle(tell = () => {}) {
    this.#tell = tell;
    const log = JSON.parse(this.#asked(`asked.settled()`));
    return { ...log, points: this.#given.settled };
  }

  /** @param {string} expression @param {string} [given] @returns {string} */
  #asked(expression, given) {
    this.python.globals.set("given", given);
    this.python.runPython(`answer = ${expression}`);
    return this.python.globals.get("answer");
  }
}

/** @param {Python["FS"]} folder @param {Record<string, string>} files */
function write(folder, files) {
  const made = new Set();
  for (const [path, text] of Object.entries(files)) {
    const parts = `${HOME}/${path}`.split("/");
    for (let k = 2; k < parts.length; k++) {
      const here = parts.slice(0, k).join("/");
      if (!made.has(here)) folder.mkdir(here);
      made.add(here);
    }
    folder.writeFile(`${HOME}/${path}`, text);
  }
}
