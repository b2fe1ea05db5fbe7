// What is measured at the bench: typed in, held against the plan, kept on this device, and saved as the file that
// `fidpath compare` reads.

import { byId, control, element } from "../dom.js";
import { recall, remember } from "../kept.js";
import { lengthIn, lengthShown } from "../lengths.js";
import { keptName } from "./place.js";

/** @import { App, MeasuringFigure } from "../types" */

const READING = 0.05; // mm: two lengths closer than this are the same to any tape or caliper

/**
 * Figures of what was measured, mm, by name; take-up from the two distances between marks.
 * @param {Record<string, number>} lengths
 * @returns {Record<string, number>}
 */
function figuresOf(lengths) {
  const { before, after, ...rest } = lengths;
  return before !== undefined && after !== undefined ? { ...rest, take_up: before - after } : rest;
}

/**
 * How a measured figure stands to the plan: by how much it is off, mm, and whether that is allowed.
 * @param {MeasuringFigure} figure
 * @param {number} mm
 */
export function standing({ planned, least, most }, mm) {
  const off = mm - planned;
  const within = off >= (least ?? -Infinity) - READING && off <= (most ?? Infinity) + READING;
  return { off, within };
}

/**
 * The measurements as a file.
 * @param {Record<string, number>} lengths
 * @param {string} job
 * @param {Date} now
 */
export function measuredFile(lengths, job, now) {
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  const date = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  const lines = Object.entries(lengths).map(([name, mm]) => `${name} = "${Number(mm.toFixed(2))} mm"`);
  const head = `# Measured at the bench. Hold it against the plan: fidpath compare JOB.toml measured.toml`;
  const of = `# Job: ${job.replace(/[^\P{C}\t]/gu, " ")}`;
  return [head, of, "schema = 1", "", "[measured]", `date = ${date}`, ...lines, ""].join("\n");
}

/**
 * What stands in the fields, as it was typed.
 * @param {App} app
 * @returns {Record<string, string>}
 */
function typed(app) {
  try {
    return JSON.parse(recall(keptName("measured", app.data)) || "{}");
  } catch {
    return {};
  }
}

/**
 * The lengths that were typed, mm, by name, in the order in which they are asked for.
 * @param {App} app
 */
function typedLengths(app) {
  const texts = typed(app);
  const { asked } = app.data.measuring;
  const found = asked.map(({ name }) => /** @type {[string, number]} */ ([name, lengthIn(texts[name] || "", app.data.unit)]));
  return Object.fromEntries(found.filter(([, mm]) => !Number.isNaN(mm)));
}

/**
 * The fields, once for each data.
 * @param {App} app
 */
export function showMeasuring(app) {
  const texts = typed(app);
  const fields = app.data.measuring.asked.map(({ name, words }) => {
    const id = `typed-${name}`;
    const said = element("p", { id: `${id}-said`, class: "small", role: "status" });
    const input = element("input", { id, type: "text", inputmode: "decimal", autocomplete: "off", "aria-describedby": said.id });
    input.value = texts[name] || "";
    input.addEventListener("input", () => {
      remember(keptName("measured", app.data), JSON.stringify({ ...typed(app), [name]: input.value }));
      showStandings(app);
    });
    const label = element("label", { for: id, text: `${words}, ${app.data.unit}` });
    return element("div", { class: "typed" }, element("div", { class: "row" }, label, input), said);
  });
  byId("typed").replaceChildren(...fields);
  showStandings(app);
}

/** @param {App} app */
function showStandings(app) {
  const { asked, figures } = app.data.measuring;
  const lengths = typedLengths(app);
  const texts = typed(app);
  const found = figuresOf(lengths);
  for (const { name } of asked) {
    const figure = figures.find((each) => each.name === (name === "after" ? "take_up" : name));
    const bad = (texts[name] || "").trim() !== "" && lengths[name] === undefined;
    control(`typed-${name}`).setAttribute("aria-invalid", String(bad));
    const said = byId(`typed-${name}-said`);
    const mm = figure && found[figure.name];
    said.textContent = bad ? `That isn't a length: write a number, in ${app.data.unit}.` : "";
    said.className = bad ? "small off" : "small";
    if (!bad && figure && mm !== undefined) showStanding(app, said, figure, mm);
  }
  byId("typed-save").hidden = byId("typed-clear").hidden = Object.keys(lengths).length === 0;
  byId("typed-file").hidden = true;
}

/**
 * @param {App} app
 * @param {HTMLElement} said
 * @param {MeasuringFigure} figure
 * @param {number} mm
 */
function showStanding(app, said, figure, mm) {
  const { off, within } = standing(figure, mm);
  const shown = (/** @type {number} */ length) => lengthShown(Math.abs(length), app.data.unit);
  const way = Math.abs(off) <= READING ? "As planned" : `${shown(off)} ${off > 0 ? "more" : "less"} than planned`;
  const bounds = [
    figure.least === null ? "" : `${shown(figure.least)} less`,
    figure.most === null ? "" : `${shown(figure.most)} more`,
  ].filter(Boolean);
  const verdict = within ? "that is within what is allowed" : "that is more than is allowed; fidpath compare says what follows";
  said.textContent =
    `${figure.label}: ${shown(mm)}. ${way} (${shown(figure.planned)}): ${verdict}. ` +
    `Allowed: up to ${bounds.join(" or ")} (${figure.why}).`;
  said.className = within ? "small within" : "small off";
}

/**
 * Saves the file, and shows it, for a device that saves nothing from a page like this.
 * @param {App} app
 */
function saveMeasured(app) {
  const text = measuredFile(typedLengths(app), app.data.name, new Date());
  const link = element("a", { href: URL.createObjectURL(new Blob([text], { type: "application/toml" })) });
  link.download = "measured.toml";
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  const shown = byId("typed-file");
  shown.textContent = text;
  shown.hidden = false;
}

/** @param {App} app */
export function makeMeasuring(app) {
  byId("typed-save").addEventListener("click", () => saveMeasured(app));
  byId("typed-clear").addEventListener("click", () => {
    remember(keptName("measured", app.data), "{}");
    showMeasuring(app);
    byId("typed").querySelector("input")?.focus();
  });
}
