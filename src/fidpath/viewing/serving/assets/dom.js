// Elements and answers: what the scripts of every page served on this machine share.

/** @param {string} id @returns {HTMLElement} */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found;
}

/**
 * An element with attributes (`text`: its words) and children; words go in as text, never as markup.
 * @param {string} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Node | string)} children
 * @returns {any}
 */
export function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "text") made.textContent = value;
    else if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(name, String(value));
  }
  made.append(...children);
  return made;
}

/** Words where the server can't be reached. */
export const GONE = "fidpath has ended. Start it again and load this page anew.";

/**
 * A server's answer as data; its words are in `problem` where there is one. Status 0: it can't be reached.
 * @param {string} path
 * @param {object} [body] what is posted; nothing where something is only asked for
 * @returns {Promise<{status: number, data: any}>}
 */
export async function ask(path, body) {
  try {
    const order = body === undefined ? {} : { method: "POST", body: JSON.stringify(body) };
    const answer = await fetch(path, order);
    const kind = answer.headers.get("Content-Type") || "";
    const data = kind.startsWith("application/json") ? await answer.json() : { problem: await answer.text() };
    return { status: answer.status, data };
  } catch {
    return { status: 0, data: { problem: GONE } };
  }
}

/**
 * Has the browser save a text under a name.
 * @param {string} name @param {string} text @param {string} [type]
 */
export function saveText(name, text, type = "text/plain") {
  const link = element("a", { href: URL.createObjectURL(new Blob([text], { type })), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** The id of a field's control. @param {string} key */
export const idOf = (key) => `f-${key.replace(/\W/g, "-")}`;

/**
 * A question in a small window: the words of the button pressed, "" where it was closed.
 * @param {string} words @param {string[]} buttons
 * @returns {Promise<string>}
 */
export function choose(words, buttons) {
  return new Promise((resolve) => {
    const own = buttons.map((text) => element("button", { type: "button", text }));
    const dialog = element("dialog", {}, element("p", { text: words }), element("p", { class: "buttons" }, ...own));
    let chosen = "";
    for (const button of own) {
      button.addEventListener("click", () => {
        chosen = button.textContent;
        dialog.close();
      });
    }
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(chosen);
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}
