// The start page: its parts by the address's fragment, and its end.

import { byId, element } from "../dom.js";
import { ask, choose } from "../served/ask.js";
import { editFile, makeEditor } from "./editor.js";
import { makeHome, showHome } from "./home.js";
import { makeQuestions, showQuestions } from "./questions.js";
import { say } from "./say.js";
import { showSheets } from "./sheets.js";

const PARTS = ["jobs", "new", "lines", "edit"];
const LOOK = 20000; // ms between two looks whether fidpath is there still; it ends where nobody looks for hours

/** Shows the part that the fragment names: `#new`, or `#edit=stay.toml`. */
async function showPart() {
  const [part, file] = decodeURIComponent(location.hash.slice(1)).split("=");
  const shown = PARTS.includes(part) ? part : "jobs";
  for (const name of PARTS) byId(name).hidden = name !== shown;
  for (const link of document.querySelectorAll("nav a")) {
    if (link.getAttribute("href") === `#${shown}`) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
  say("");
  if (shown === "jobs") await showHome();
  if (shown === "new") await showQuestions();
  if (shown === "lines") await showSheets();
  if (shown === "edit") await editFile(file || "");
}

/** Says when fidpath has ended, and takes that back where it answers again. */
async function look() {
  const { status, data } = await ask("here");
  const gone = status === 0;
  if (gone && !missing) say(data.problem, true);
  if (!gone && missing) await showPart();
  missing = gone;
}

/** Ends fidpath, once a person has said so again. */
async function end() {
  const words = "End fidpath? What is being built stops. Figures that you haven't saved are lost.";
  if ((await choose(words, ["End fidpath", "Go on"])) !== "End fidpath") return;
  clearInterval(looking);
  await ask("end", {});
  const last = element("p", { text: "fidpath has ended. You can close this window." });
  document.body.replaceChildren(element("main", {}, element("h1", { text: "fidpath" }), last));
}

let missing = false;
const looking = setInterval(look, LOOK);
byId("end").addEventListener("click", end);
window.addEventListener("hashchange", showPart);
window.addEventListener("pageshow", (event) => {
  if (event.persisted) showPart();
});
makeHome();
makeQuestions();
makeEditor();
showPart();
