// What goes with the rope: shown as it stands and as it would be, to be followed or left by one button.

import { byId, control, element } from "../dom.js";
import { ask, idOf } from "../served/ask.js";

/** @import { Follow } from "../types" */

/** What is asked of the fields: their texts now, and that these go into them, as agreed. */
/** @typedef {{ texts: () => Record<string, string>, put: (texts: Record<string, string>, agreed: boolean) => void }} Fields */

/**
 * Shows what should follow; nothing where nothing should. What a person has unticked stays unticked.
 * @param {Follow[]} follows
 * @param {Fields} fields
 */
export function showFollows(follows, fields) {
  const box = byId("follows");
  box.hidden = follows.length === 0;
  if (follows.length === 0) {
    box.replaceChildren();
    return;
  }
  const left = new Set([...box.querySelectorAll("input:not(:checked)")].map((input) => input.getAttribute("data-key")));
  const rows = follows.map((one) => rowOf(one, !left.has(one.key)));
  const follow = element("button", { type: "button", class: "main", text: "Make these follow", onclick: () => take(follows, fields) });
  const leave = element("button", { type: "button", text: "Leave them as they are", onclick: () => fields.put({}, true) });
  const words = "The rope has changed. These were for the rope before:";
  box.replaceChildren(element("p", { text: words }), element("ul", {}, ...rows), element("p", { class: "buttons" }, follow, leave));
}

/**
 * @param {Follow} follow
 * @param {boolean} checked
 */
function rowOf({ key, label, old, new: fresh, why }, checked) {
  const input = element("input", { type: "checkbox", id: `follow-${key}`, "data-key": key });
  input.checked = checked;
  const words = element("span", { class: "change" }, element("s", { text: old }), " to ", element("b", { text: fresh || "left out" }));
  return element("li", {}, input, element("label", { for: `follow-${key}` }, `${label}: `, words, element("small", { text: why })));
}

/**
 * Puts those that are ticked into the fields.
 * @param {Follow[]} follows
 * @param {Fields} fields
 */
function take(follows, fields) {
  const ticked = follows.filter(({ key }) => control(`follow-${key}`).checked);
  fields.put(Object.fromEntries(ticked.map(({ key, new: fresh }) => [key, fresh])), true);
}

/**
 * The buttons that write every length in the other unit.
 * @param {Fields} fields
 */
export function makeUnits(fields) {
  for (const system of ["mm", "in"]) {
    byId(`units-${system}`).addEventListener("click", async () => {
      const { status, data } = await ask("units", { texts: fields.texts(), to: system });
      if (status === 200) fields.put(data.texts, byId("follows").hidden);
    });
  }
}

/**
 * Says which of the two units the fields are in.
 * @param {Record<string, string>} texts
 */
export function showUnits(texts) {
  const inches = /in$|ft$|["']$/.test((texts["tools.tape_division"] || texts["rope.diameter"] || "").trim());
  byId("units-in").setAttribute("aria-pressed", String(inches));
  byId("units-mm").setAttribute("aria-pressed", String(!inches));
}

/**
 * Puts texts into fields by key.
 * @param {Record<string, string>} texts
 */
export function putTexts(texts) {
  for (const [key, text] of Object.entries(texts)) control(idOf(key)).value = text;
}
