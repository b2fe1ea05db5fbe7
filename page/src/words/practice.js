// Practice: the words are hidden, and choices that spoil splices are made by whoever holds the phone.

import { byId, element, listOf } from "../dom.js";
import { openTab, setBench } from "../frame.js";
import { recall, remember } from "../kept.js";
import { goTo, pictureOf } from "./entries.js";

/** @import { App, Entry, Option, Question, StepRecord } from "../types" */

/**
 * Begins practice, or leaves it.
 * @param {App} app
 * @param {boolean} on
 */
export function setPractice(app, on) {
  app.practice = { on, at: 0, tries: 0, first: 0, done: false };
  document.body.classList.toggle("practising", on);
  byId("practise").setAttribute("aria-pressed", String(on));
  if (!on) {
    app.entries = app.all.steps;
    goTo(app, app.leftAt || 0);
    return;
  }
  if (app.entries === app.all.steps) app.leftAt = app.at;
  if (app.bench) setBench(app, false);
  openTab(app, "words");
  askNext(app);
}

/**
 * The step that shows a state.
 * @param {App} app
 * @param {string} kind
 */
function stepShowing({ data }, kind) {
  const found = data.steps.find(({ state }) => state === kind);
  if (!found) throw new Error(`no step shows ${kind}`);
  return found;
}

/**
 * A question's picture: the state before the choice, without what would give it away.
 * @param {App} app
 * @param {Question} question
 * @returns {Entry}
 */
function questionEntry(app, question) {
  const step = stepShowing(app, question.before);
  const picture = pictureOf({ ...step, bodies: null, labels: faceLabels(step) }, null);
  return { kind: "question", key: "question", step, pictures: [picture] };
}

/** @param {StepRecord} step */
const faceLabels = ({ labels }) => (labels || []).filter(({ words }) => words.endsWith("face"));

/** @param {App} app */
function askNext(app) {
  const { practice, data } = app;
  const question = data.practice[practice.at];
  if (!question) {
    showScore(app);
    return;
  }
  practice.tries = 0;
  app.entries = [questionEntry(app, question)];
  goTo(app, 0);
  showQuestion(app, question);
}

/**
 * @param {App} app
 * @param {Question} question
 */
function showQuestion(app, question) {
  const { practice, data } = app;
  const button = (/** @type {Option} */ option) => {
    const onclick = () => answer(app, question, option);
    return element("button", { type: "button", class: "answer", text: option.words, onclick });
  };
  byId("words").replaceChildren(
    element("h2", { id: "title", tabindex: "-1", text: `Question ${practice.at + 1} of ${data.practice.length}` }),
    element("p", { class: "ask", text: question.ask }),
    ...shuffled(question.options).map(button),
  );
  byId("title").focus();
}

/** @param {Option[]} options */
function shuffled(options) {
  return options.map((option) => ({ at: Math.random(), option })).sort((a, b) => a.at - b.at).map(({ option }) => option);
}

/**
 * Shows what a choice leads to: the true state, right or wrong.
 * @param {App} app
 * @param {Question} question
 * @param {Option} option
 */
function answer(app, question, option) {
  const { practice } = app;
  practice.tries += 1;
  if (option.right && practice.tries === 1) practice.first += 1;
  if (option.right) {
    const step = stepShowing(app, option.shows);
    const pictures = [pictureOf({ ...step, labels: faceLabels(step) }, null)];
    app.entries = [{ kind: "question", key: "question", step, pictures }];
    showVerdict(app, option, "Right.", [], ["Go on", () => goOn(app)]);
    return;
  }
  const wrong = app.all.wrong.filter(({ way }) => way.state === option.shows);
  const [{ way }] = wrong;
  const signs = [element("h3", { text: "What gives it away" }), listOf("ul", way.signs)];
  app.entries = wrong;
  showVerdict(app, option, `This is the result: ${way.title}.`, signs, ["Try again", () => tryAgain(app, question)]);
}

/**
 * Shows the picture of a choice, whether it was right and why, and the way on.
 * @param {App} app
 * @param {Option} option
 * @param {string} verdict
 * @param {HTMLElement[]} signs
 * @param {[string, () => void]} further
 */
function showVerdict(app, option, verdict, signs, [text, onclick]) {
  goTo(app, 0);
  byId("words").replaceChildren(
    element("h2", { id: "title", tabindex: "-1", class: option.right ? "right" : "wrong", text: verdict }),
    element("p", { text: option.why }),
    ...signs,
    element("button", { type: "button", class: "next", text, onclick }),
  );
  byId("title").focus();
}

/** @param {App} app */
function goOn(app) {
  app.practice.at += 1;
  askNext(app);
}

/**
 * @param {App} app
 * @param {Question} question
 */
function tryAgain(app, question) {
  app.entries = [questionEntry(app, question)];
  goTo(app, 0);
  showQuestion(app, question);
}

/**
 * The score, with the best one this device has kept; it goes nowhere else.
 * @param {App} app
 */
function showScore(app) {
  const { practice, data } = app;
  const name = `fidpath practice ${data.method} ${data.name}`;
  const best = Math.max(Number(recall(name) || 0), practice.first);
  remember(name, String(best));
  const total = data.practice.length;
  byId("words").replaceChildren(
    element("h2", { id: "title", tabindex: "-1", text: `${practice.first} of ${total} right at the first try` }),
    element("p", { text: `Best so far: ${best} of ${total}. The score is kept on this device only.` }),
    element("button", { type: "button", class: "next", text: "Once more", onclick: () => setPractice(app, true) }),
    element("button", { type: "button", text: "Back to the steps", onclick: () => setPractice(app, false) }),
  );
  byId("title").focus();
}
