// Bundles the pages' scripts into the files that the Python package ships. `--check` writes nothing and fails where a
// file isn't what the sources make now. The first line of a bundle holds a digest of its sources, so that a machine
// without node can tell as well whether it is stale.

import { createHash } from "node:crypto";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import esbuild from "esbuild";

const HERE = dirname(fileURLToPath(import.meta.url));
const BUNDLES = {
  "src/page.js": "../src/fidpath/outputs/page/assets/bundle.js",
  "src/live.js": "../src/fidpath/viewing/live_page/assets/bundle.js",
  "src/startpage/start.js": "../src/fidpath/viewing/start_page/assets/bundle.js",
};

/**
 * All files below a folder, as paths from here, sorted.
 * @param {string} folder
 * @returns {string[]}
 */
const filesIn = (folder) =>
  readdirSync(join(HERE, folder), { withFileTypes: true })
    .flatMap((entry) => (entry.isDirectory() ? filesIn(`${folder}/${entry.name}`) : [`${folder}/${entry.name}`]))
    .sort();

/** What the bundles are made from, as a digest: each file's path and text, a zero byte after each. */
function digest() {
  const hash = createHash("sha256");
  const paths = [...filesIn("src"), "build.mjs", "package-lock.json"].sort();
  for (const path of paths) hash.update(`${path}\0${readFileSync(join(HERE, path), "utf8")}\0`);
  return hash.digest("hex").slice(0, 16);
}

/** Programs for the graphics card are text to esbuild: their indents are taken out here. */
/** @type {esbuild.Plugin} */
const shaders = {
  name: "shaders",
  setup(build) {
    build.onLoad({ filter: /shaders\.js$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(/^ +/gm, ""),
      loader: "js",
    }));
  },
};

/** @param {string} entry */
async function bundled(entry) {
  const { outputFiles } = await esbuild.build({
    absWorkingDir: HERE,
    banner: { js: `// Built by page/build.mjs from sources ${digest()}: change those, and run \`make page\`.` },
    bundle: true,
    entryPoints: [entry],
    format: "iife",
    legalComments: "none",
    lineLimit: 160,
    minify: true,
    plugins: [shaders],
    target: "es2021",
    write: false,
  });
  return outputFiles[0].text;
}

const check = process.argv.includes("--check");
for (const [entry, out] of Object.entries(BUNDLES)) {
  const text = await bundled(entry);
  const path = join(HERE, out);
  if (!check) writeFileSync(path, text);
  else if (readFileSync(path, "utf8") !== text) {
    console.error(`${relative(dirname(HERE), path)} is stale: run \`make page\``);
    process.exitCode = 1;
  }
}
