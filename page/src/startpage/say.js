// Words for everybody to see, at the top of the page.

import { byId } from "../dom.js";

/**
 * Says something, to readers of screens too; no words take the last away.
 * @param {string} words
 * @param {boolean} [wrong]
 */
export function say(words, wrong = false) {
  const place = byId("said");
  place.textContent = words;
  place.hidden = !words;
  place.classList.toggle("wrong", wrong);
  if (wrong && words) place.scrollIntoView({ block: "nearest" });
}
