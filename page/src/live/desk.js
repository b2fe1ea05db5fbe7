// What stands over the figures: the way back to the jobs, saving to the job's own file, building everything.

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
  const build = element("button", { type: "button", class: "main", text: "Build everything", onclick: goBuild });
  const own = home ? [element("a", { href: home, text: "All jobs" }), saveButton(file, settled)] : [];
  byId("desk").replaceChildren(...own, build, element("span", { id: "desk-said", role: "status" }));
}

/**
 * @param {string} file
 * @param {Settled} settled
 */
const saveButton = (file, settled) => element("button", { type: "button", text: `Save to ${file}`, onclick: () => saveOwn(file, settled) });

/** Begins a build and goes to where it is told how far it is, and where its results are. */
function goBuild() {
  byId("build").click();
  byId("build-head").scrollIntoView();
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
