// Everything built by one button: how far it is, what is there, and the page on a phone where that is asked for.

import { byId, control, element } from "../dom.js";
import { ask, choose } from "../served/ask.js";

/** @import { BuildNews, ResultGroup } from "../types" */

const LOOK = 700; // ms between two looks at a build under way

const SHORT = 6; // files of a group that are listed at once; the rest are folded

/** Whether a build is being looked at. */
let looking = false;

/** Begins: shows what is there, and a build that is under way. */
export async function makeResults() {
  byId("build").addEventListener("click", build);
  byId("build-stop").addEventListener("click", () => order("build/stop", {}));
  byId("phone").addEventListener("click", toPhone);
  await showResults();
  look();
}

/** Builds everything of the job as it stands. */
function build() {
  order("build", { motion: control("build-motion").checked, models: control("build-models").checked });
}

/**
 * An order about results, and what comes of it.
 * @param {string} path
 * @param {object} body
 */
async function order(path, body) {
  const { status, data } = await ask(path, body);
  if (status === 200) show(data);
  else tell(data.problem, true);
  look();
}

/** Looks how far a build is, until it is done. */
async function look() {
  if (looking) return;
  looking = true;
  for (;;) {
    const { status, data } = await ask("build");
    if (status !== 200) break;
    show(data);
    if (data.phase !== "building") break;
    await new Promise((resolve) => setTimeout(resolve, LOOK));
  }
  looking = false;
  await showResults();
}

/** @param {BuildNews} news */
function show(news) {
  const building = news.phase === "building";
  const bar = /** @type {HTMLProgressElement} */ (byId("build-bar"));
  bar.hidden = !building;
  bar.value = news.share;
  byId("build-stop").hidden = !building;
  control("build").disabled = building;
  const whole = building ? `${news.name}: ${news.words} (${Math.round(100 * news.share)} %)` : news.words;
  tell(whole, news.phase === "failed");
  showPhone(news.phone);
}

/**
 * @param {string} words
 * @param {boolean} wrong
 */
function tell(words, wrong) {
  const place = byId("build-said");
  if (place.textContent !== words) place.textContent = words;
  place.classList.toggle("error", wrong);
}

/** Lists the files that are there. */
async function showResults() {
  const { status, data } = await ask("results");
  if (status !== 200) return;
  const groups = /** @type {ResultGroup[]} */ (data.groups);
  byId("results").replaceChildren(...groups.map(groupOf));
  byId("results-note").textContent = groups.length > 0 ? `They are in ${data.folder}.` : "Nothing has been built yet. It takes a minute or two.";
  byId("phone").hidden = !groups.some(({ files }) => files.some(({ path }) => path === "splice.html"));
}

/** @param {ResultGroup} group */
function groupOf({ title, files }) {
  const items = files.map(({ path, size }) => {
    const link = element("a", { href: `results/${path.split("/").map(encodeURIComponent).join("/")}`, target: "_blank", text: path });
    return element("li", {}, link, ` ${sizeOf(size)}`);
  });
  const list = element("ul", {}, ...items.slice(0, SHORT));
  const more = items.length > SHORT ? element("details", {}, element("summary", { text: `${items.length - SHORT} more` }), element("ul", {}, ...items.slice(SHORT))) : null;
  return element("div", { class: "result" }, element("h3", { text: title }), list, more);
}

/** @param {number} bytes */
const sizeOf = (bytes) => (bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`);

// ---- the phone

const PHONE =
  "Show the built page to a phone in this network? Until you stop it, for two hours at most, everybody in the same " +
  "network who has the address can read the page and nothing else. The way there isn't encrypted.";

async function toPhone() {
  const shown = byId("phone").dataset.on === "yes";
  if (!shown && (await choose(PHONE, ["Show it", "Not now"])) !== "Show it") return;
  await order("phone", { on: !shown });
}

/** @param {BuildNews["phone"]} phone */
function showPhone(phone) {
  byId("phone").dataset.on = phone ? "yes" : "no";
  byId("phone").textContent = phone ? "Stop showing it to a phone" : "Show the page on a phone in this network";
  const code = phone && element("img", { src: `phone.svg?${phone.url.length}${phone.url.slice(-6)}`, alt: "Code for the phone's camera", width: 240, height: 240 });
  const words = phone && element("p", {}, `${phone.name} is shown to phones in this network, to be read only. Point the phone's camera at the code, or type `, element("b", { text: phone.url }));
  byId("phone-shown").replaceChildren(...(phone ? [/** @type {Node} */ (words), /** @type {Node} */ (code)] : []));
}
