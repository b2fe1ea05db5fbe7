// Runs the page's engine in node, for tests: `node anyrope-in-node.mjs FOLDER` reads `python.json` and `asked.json` there,
// a list of `{ job, kinds }`, and writes `answers.json`, with the strands of each kind as `ANSWER-KIND.bin`.

import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { loadMicroPython } from "@micropython/micropython-webassembly-pyscript";
import { Engine } from "./src/anyrope/engine.js";

const ASSETS = join(dirname(fileURLToPath(import.meta.url)), "../src/fidpath/outputs/any_rope/assets");
const folder = process.argv[2];
/** @param {string} path */
const json = (path) => JSON.parse(readFileSync(path, "utf8"));

const python = await loadMicroPython({ heapsize: 32 << 20, linebuffer: true, stdout: console.error });
const loops = new WebAssembly.Module(readFileSync(join(ASSETS, "settling.wasm")));
const engine = new Engine(python, json(join(folder, "python.json")), loops, json(join(ASSETS, "settling.json")).functions);

const answers = json(join(folder, "asked.json")).map(({ job, kinds = [] }, number) => {
  const plan = engine.plan(job);
  const logs = {};
  for (const kind of kinds) {
    const { laid } = engine.draft(kind);
    const shares = [];
    const { points, ...log } = engine.settle((share) => shares.push(share));
    writeFileSync(join(folder, `${number}-${kind}-laid.bin`), laid.data);
    writeFileSync(join(folder, `${number}-${kind}.bin`), points.data);
    logs[kind] = { ...log, told: shares.length };
  }
  return { plan, logs };
});
writeFileSync(join(folder, "answers.json"), JSON.stringify(answers));
