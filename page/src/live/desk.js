// The live page as the start page opens it: the way back to the jobs, and saving to the job's own file.

import { byId, element } from "../dom.js";
import { ask, choose } from "../served/ask.js";

/**
 * @typedef {{ home: string, file: string }} Desk
 * @typedef {() => Promise<boolean>} Settled whether the figures hold and have all arrived
 */

/**
 * @param {Desk} desk
 * @param {Settled} settled
 */
export function makeDesk({ home, file }, settled) {
  if (!home) return;
  const nav = byId("desk");
  nav.hidden = false;
  const save = element("button", { type: "button", text: `Save to ${file}`, onclick: () => saveOwn(file, settled) });
  nav.replaceChildren(element("a", { href: home, text: "All jobs" }), save, element("span", { id: "desk-said", role: "status" }));
}

/**
 * Saves to the job's own file, once a person has said that what stands there may go.
 * @param {string} file
 * @param {Settled} settled
 */
async function saveOwn(file, settled) {
  const words = `Write the figures as they stand into ${file}? What the file says now is replaced; its notes stay.`;
  if ((await choose(words, ["Save", "Don't save"])) !== "Save") return;
  if (!(await settled())) {
    byId("desk-said").textContent = "The figures don't hold: nothing was saved.";
    return;
  }
  const { data } = await ask("save", { name: file, replace: true });
  byId("desk-said").textContent = data.saved ? "Saved." : data.problem || ASK_NAMES;
  if (data.follows) byId("follows").scrollIntoView({ block: "nearest" });
}

export const ASK_NAMES = "Not saved yet: a name still says what the rope was. Choose above whether it follows.";
