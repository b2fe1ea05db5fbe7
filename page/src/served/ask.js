// Orders to the server of a page, its answers, and what a person chooses or saves: for every page served on this machine.

import { element, saidBy } from "../dom.js";

/** @import { Answer } from "../types" */

/**
 * A server's answer as data, or its words as `problem`; status 0 where it can't be reached.
 * @param {string} path
 * @param {unknown} [body] what is posted; nothing where something is only asked for
 * @returns {Promise<Answer>}
 */
export async function ask(path, body) {
  const order = body === undefined ? {} : { method: "POST", body: JSON.stringify(body) };
  try {
    return await answered(await fetch(path, order));
  } catch (problem) {
    return { status: 0, data: { problem: `fidpath has ended (${saidBy(problem)}). Start it again.` } };
  }
}

/**
 * @param {Response} answer
 * @returns {Promise<Answer>}
 */
export async function answered(answer) {
  const kind = answer.headers.get("Content-Type") || "";
  const data = kind.startsWith("application/json") ? await answer.json() : { problem: await answer.text() };
  return { status: answer.status, data };
}

/**
 * Has the browser save something under a name.
 * @param {string} name
 * @param {Blob} blob
 */
export function saveAs(name, blob) {
  const link = element("a", { href: URL.createObjectURL(blob), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** The id of a field's control. @param {string} key */
export const idOf = (key) => `f-${key.replace(/\W/g, "-")}`;

/**
 * A question in a small window: the words of the button pressed, "" where it was closed.
 * @param {string} words
 * @param {string[]} buttons
 * @returns {Promise<string>}
 */
export function choose(words, buttons) {
  return new Promise((resolve) => {
    let chosen = "";
    const press = (/** @type {string} */ text) => () => {
      chosen = text;
      dialog.close();
    };
    const own = buttons.map((text) => element("button", { type: "button", text, onclick: press(text) }));
    const dialog = element("dialog", {}, element("p", { text: words }), element("p", { class: "buttons" }, ...own));
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(chosen);
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}
