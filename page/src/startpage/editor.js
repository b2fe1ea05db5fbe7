// A file of the folder as text: edited, saved where nobody else has changed it, and read as a check.

import { byId, control, element } from "../dom.js";
import { ask } from "../served/ask.js";
import { openJob } from "./home.js";

/** @import { WorkFile } from "../types" */

const edited = { file: "", digest: "" };

const box = () => control("edit-text");

export function makeEditor() {
  byId("edit-save").addEventListener("click", save);
  byId("edit-open").addEventListener("click", () => openJob(edited.file));
}

/**
 * Opens a file.
 * @param {string} file
 */
export async function editFile(file) {
  const { status, data } = await ask(`text/${encodeURIComponent(file)}`);
  byId("edit-head").textContent = file;
  tell(status === 200 ? "" : data.problem, true);
  box().disabled = status !== 200;
  control("edit-save").disabled = status !== 200;
  byId("edit-open").hidden = true;
  if (status !== 200) return;
  box().value = data.text;
  Object.assign(edited, { file: data.file, digest: data.digest });
  await showKind();
}

async function showKind() {
  const { data } = await ask("home");
  const found = /** @type {WorkFile[]} */ (data.files || []).find(({ file }) => file === edited.file);
  byId("edit-open").hidden = !found || found.kind !== "job";
}

async function save() {
  const { status, data } = await ask(`text/${encodeURIComponent(edited.file)}`, { text: box().value, digest: edited.digest });
  if (status !== 200) {
    tell(data.problem, true);
    return;
  }
  edited.digest = data.digest;
  await showKind();
  if (data.problem) tell(`Saved, but it can't be used yet. ${data.problem}`, true);
  else {
    tell("Saved. ", false);
    byId("edit-said").append(element("a", { href: "#lines", text: "To lines and sets" }));
  }
}

/**
 * @param {string} words
 * @param {boolean} wrong
 */
function tell(words, wrong) {
  byId("edit-said").textContent = words;
  byId("edit-said").classList.toggle("error", wrong);
}
