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
 * A question's picture: the state before the choice, without what would give it away.
 * @param {App} app
 * @param {Question} question
 * @returns {Entry}
 */
function questionEntry(app, question) {
  const step = app.data.steps.find(({ state }) => state === question.before);
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
  const button = (option) => {
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
  return options.map((option) => [Math.random(), option]).sort((a, b) => a[0] - b[0]).map(([, option]) => option);
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
  const step = app.data.steps.find(({ state }) => state === option.shows);
  const wrong = app.all.wrong.find(({ way }) => way.state === option.shows);
  const right = () => ({ kind: "question", step, pictures: [pictureOf({ ...step, labels: faceLabels(step) }, null)] });
  app.entries = [option.right ? right() : wrong];
  goTo(app, 0);
  const verdict = option.right ? "Right." : `This is the result: ${wrong.way.title}.`;
  const next = option.right ? ["Go on", () => goOn(app)] : ["Try again", () => tryAgain(app, question)];
  byId("words").replaceChildren(
    element("h2", { id: "title", tabindex: "-1", class: option.right ? "right" : "wrong", text: verdict }),
    element("p", { text: option.why }),
    ...(option.right ? [] : [element("h3", { text: "What gives it away" }), listOf("ul", wrong.way.signs)]),
    element("button", { type: "button", class: "next", text: next[0], onclick: next[1] }),
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
