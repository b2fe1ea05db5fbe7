// Making and finding elements. Words go in as text, never as markup.

/** @import { Colour } from "./types" */

/**
 * The page's element of a name, which the markup has.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found;
}

/**
 * The same where it is something to be filled in or chosen.
 * @param {string} id
 */
export const control = (id) => /** @type {HTMLInputElement} */ (byId(id));

/**
 * What an event's own control holds.
 * @param {Event} event
 */
export const valueIn = ({ target }) => /** @type {HTMLInputElement} */ (target).value;

/**
 * What has the keyboard's attention.
 */
export const focused = () => /** @type {HTMLInputElement} */ (document.activeElement || document.body);

/**
 * An element with attributes (`on...` are listeners, `text` its words) and children.
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Node | string | null)} children
 * @returns {HTMLElementTagNameMap[Tag]}
 */
export function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "text") made.textContent = value;
    else if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(name, value);
  }
  for (const child of children) if (child !== null) made.append(child);
  return made;
}

/**
 * What a caught problem says.
 * @param {unknown} problem
 */
export const saidBy = (problem) => (problem instanceof Error ? problem.message : String(problem));

const SVG = "http://www.w3.org/2000/svg";

/**
 * @param {string} tag
 * @param {Record<string, string | number>} [attributes]
 */
export function drawing(tag, attributes = {}) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  return made;
}

/**
 * @param {"ol" | "ul"} tag
 * @param {string[]} texts
 */
export function listOf(tag, texts) {
  return element(tag, {}, ...texts.map((text) => element("li", { text })));
}

/**
 * A drop-down with options `[[value, words], ...]`.
 * @param {Record<string, any>} attributes
 * @param {string[][]} options
 * @param {string} [value]
 */
export function choice(attributes, options, value) {
  const made = element("select", attributes, ...options.map(([key, text]) => element("option", { value: key, text })));
  if (value !== undefined) made.value = value;
  return made;
}

/**
 * A labelled control on one row.
 * @param {string} words
 * @param {HTMLElement} own
 */
export function row(words, own) {
  const id = own.id || `c-${Math.random().toString(36).slice(2, 9)}`;
  own.id = id;
  return element("div", { class: "row" }, element("label", { for: id, text: words }), own);
}

/** @param {Colour} colour */
export const cssColour = ([r, g, b]) => `rgb(${r} ${g} ${b})`;
/**
 * @param {Colour} colour
 * @returns {number[]}
 */
export const share = (colour) => colour.map((value) => value / 255);
