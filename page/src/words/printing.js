// The card of marks, or everything, on paper.

import { element } from "../dom.js";

/**
 * Prints the card alone, or all steps.
 * @param {boolean} cardOnly
 */
function print(cardOnly) {
  document.body.classList.toggle("card-only", cardOnly);
  window.print();
}

/** Buttons under the marks, and the whole page again for who prints it from the browser's own menu. */
export function makePrint() {
  window.addEventListener("afterprint", () => document.body.classList.remove("card-only"));
}

/** What prints, under the marks. */
export const printButtons = () =>
  element(
    "div",
    { class: "print" },
    element("button", { type: "button", id: "print-card", text: "Print this card", onclick: () => print(true) }),
    element("button", { type: "button", id: "print-all", text: "Print card and steps", onclick: () => print(false) }),
  );
