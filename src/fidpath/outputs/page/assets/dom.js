// Making and finding elements. Words go in as text, never as markup.

const byId = (id) => document.getElementById(id);

/** An element with attributes (`on...` are listeners, `text` its words) and children. */
function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "text") made.textContent = value;
    else if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(name, value);
  }
  made.append(...children.filter((child) => child !== null));
  return made;
}

const SVG = "http://www.w3.org/2000/svg";

function drawing(tag, attributes = {}) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

function listOf(tag, texts) {
  return element(tag, {}, ...texts.map((text) => element("li", { text })));
}

/** A drop-down with options `[[value, words], ...]`. */
function choice(attributes, options, value) {
  const made = element("select", attributes, ...options.map(([key, text]) => element("option", { value: key, text })));
  if (value !== undefined) made.value = value;
  return made;
}

/** A labelled control on one row. */
function row(words, control) {
  const id = control.id || `c-${Math.random().toString(36).slice(2, 9)}`;
  control.id = id;
  return element("div", { class: "row" }, element("label", { for: id, text: words }), control);
}

const cssColour = ([r, g, b]) => `rgb(${r} ${g} ${b})`;
const share = (colour) => colour.map((value) => value / 255);
