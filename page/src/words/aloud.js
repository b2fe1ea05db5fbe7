// Reading aloud: the browser's own voice says what a step says, and goes on by itself for who has both hands full.

import { byId, control, element } from "../dom.js";
import { recall, remember } from "../kept.js";
import { goTo } from "./entries.js";
import { nextReading, sentencesIn } from "./reading.js";

/** @import { App, ReadingHappening } from "../types" */

const SHORT = 0.6; // seconds between sentences where nobody waits for hands
const PAUSES = [
  ["0", "stop"],
  ["5", "go on: 5 s a sentence"],
  ["15", "go on: 15 s a sentence"],
  ["40", "go on: 40 s a sentence"],
];

/**
 * Buttons for reading, where the browser has a voice.
 * @param {App} app
 */
export function makeReader(app) {
  const { speechSynthesis } = window;
  if (!speechSynthesis || typeof SpeechSynthesisUtterance === "undefined") return;
  byId("aloud").hidden = false;
  control("pause").replaceChildren(...PAUSES.map(([value, text]) => element("option", { value, text })));
  control("pause").value = recall("fidpath pause") || "0";
  control("pause").addEventListener("change", () => remember("fidpath pause", control("pause").value));
  byId("read").addEventListener("click", () => {
    const silent = app.reading.name === "silent";
    happenAloud(app, silent ? { is: "start", pause: Number(control("pause").value) } : { is: "stop" });
  });
  window.addEventListener("pagehide", () => happenAloud(app, { is: "stop" }));
}

/**
 * Other words are shown: they are read, if the ones before were; a mistake or a question ends the reading.
 * @param {App} app
 */
export function readOn(app) {
  const step = app.entry.kind === "step" || app.entry.kind === "aim";
  byId("aloud").classList.toggle("off", !step);
  if (app.reading.name !== "silent") happenAloud(app, { is: step ? "moved" : "stop" });
}

/**
 * @param {App} app
 * @param {ReadingHappening} happening
 */
export function happenAloud(app, happening) {
  const sentences = sentencesIn(byId("words"));
  const { reading, deed } = nextReading(app.reading, happening, sentences.length);
  app.reading = reading;
  if (deed === "none") return;
  clearTimeout(app.aloud);
  if (deed === "say") speak(app, sentences[reading.at]);
  if (deed === "hush") window.speechSynthesis.cancel();
  if (deed === "wait") app.aloud = setTimeout(() => happenAloud(app, { is: "waited" }), 1000 * (reading.pause || SHORT));
  if (deed === "go on") onward(app);
  const silent = reading.name === "silent";
  byId("read").textContent = silent ? "Read aloud" : "Stop reading";
  byId("read").setAttribute("aria-pressed", String(!silent));
  for (const [i, sentence] of sentences.entries()) sentence.classList.toggle("reading", !silent && i === reading.at);
}

/**
 * Goes to the next step, whose words are then read; after the last one it is silent.
 * @param {App} app
 */
function onward(app) {
  if (app.at + 1 < app.entries.length) goTo(app, app.at + 1);
  else happenAloud(app, { is: "stop" });
}

/**
 * Says a sentence; what was being said before is broken off and reports nothing any more.
 * @param {App} app
 * @param {HTMLElement} sentence
 */
function speak(app, sentence) {
  const voice = window.speechSynthesis;
  const spoken = new SpeechSynthesisUtterance(sentence.textContent || "");
  spoken.lang = document.documentElement.lang;
  app.spoken = spoken;
  const over = () => {
    if (app.spoken === spoken) happenAloud(app, { is: "said" });
  };
  spoken.onend = over;
  spoken.onerror = ({ error }) => {
    if (error !== "interrupted" && error !== "canceled" && app.spoken === spoken) happenAloud(app, { is: "stop" });
  };
  voice.cancel();
  voice.speak(spoken);
  sentence.scrollIntoView({ block: "nearest" });
}
