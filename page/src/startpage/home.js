// The jobs and other files of the folder: opened, edited as text, and taken in from elsewhere.

import { byId, control, element } from "../dom.js";
import { ask } from "../served/ask.js";
import { say } from "./say.js";

/** @import { Home, WorkFile } from "../types" */

/** @type {Record<WorkFile["kind"], string>} */
const KINDS = {
  job: "job",
  set: "set of lines",
  loft: "practice file",
  measured: "measurements",
  table: "table",
  other: "other file",
  broken: "file",
};

export function makeHome() {
  byId("file").addEventListener("change", takeIn);
}

/** Shows the files as they are now. */
export async function showHome() {
  const { status, data } = await ask("home");
  if (status !== 200) {
    say(data.problem, true);
    return;
  }
  const home = /** @type {Home} */ (data);
  byId("folder").textContent = `Job files and results are kept in ${home.folder}.`;
  const jobs = home.files.filter((file) => file.kind === "job");
  const others = home.files.filter((file) => file.kind !== "job");
  byId("job-list").replaceChildren(jobs.length > 0 ? listOf(jobs) : noJobs());
  const heading = element("h2", { text: "Other files of the folder" });
  byId("other-files").replaceChildren(...(others.length > 0 ? [heading, listOf(others)] : []));
}

function noJobs() {
  const link = element("a", { href: "#new", text: "Make a new job" });
  return element("p", {}, "There is no job yet. ", link, " by a few questions, or open a file below.");
}

/** @param {WorkFile[]} files */
const listOf = (files) => element("ul", { class: "files" }, ...files.map(rowOf));

/** @param {WorkFile} file */
function rowOf(file) {
  const when = new Date(1000 * file.used).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
  const about = [file.about, file.kind === "job" ? "" : KINDS[file.kind], file.file, when].filter(Boolean).join(", ");
  const words = element("div", {}, element("b", { text: file.title }), element("small", { text: about }));
  const text = element("a", { href: `#edit=${encodeURIComponent(file.file)}`, text: "As text" });
  if (file.kind !== "job") return element("li", {}, words, element("span"), text);
  const open = element("button", { type: "button", class: "main", text: "Open", "aria-label": `Open ${file.title}` });
  open.addEventListener("click", () => openJob(file.file, open));
  return element("li", {}, words, open, text);
}

/**
 * Opens a job in this window; says what is wrong where it can't be.
 * @param {string} file
 * @param {HTMLButtonElement} [button]
 */
export async function openJob(file, button) {
  if (button) button.disabled = true;
  say("The job is being opened.");
  const { status, data } = await ask("open", { file });
  if (button) button.disabled = false;
  if (status === 200) location.assign(data.url);
  else say(`${file} can't be opened: ${data.problem} "As text" lets you put it right.`, true);
}

/** Takes a copy of a chosen file into the folder, and opens it where it is a job. */
async function takeIn() {
  const input = control("file");
  const [chosen] = input.files || [];
  if (!chosen) return;
  if (chosen.size > 1e6) {
    say(`${chosen.name} is too large: a file of fidpath is a few pages of text.`, true);
    return;
  }
  const { status, data } = await ask("add", { name: chosen.name, text: await chosen.text() });
  input.value = "";
  if (status !== 200) {
    say(data.problem, true);
    return;
  }
  await showHome();
  const { data: home } = await ask("home");
  const found = /** @type {WorkFile[]} */ (home.files).find(({ file }) => file === data.file);
  if (found && found.kind === "job") await openJob(data.file);
  else say(`${data.file} is in the folder now.`);
}
