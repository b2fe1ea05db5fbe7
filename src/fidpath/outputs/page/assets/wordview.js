// The words beside the picture: a step's, a mistake's, the tables, the cautions.

function showWords(app) {
  const { entry } = app;
  byId("words").replaceChildren(...(entry.kind === "wrong" ? wrongWords(app, entry.way) : stepWords(app, entry)));
  byId("words").scrollTop = 0;
}

function stepWords(app, entry) {
  const title = element("h2", { id: "title", tabindex: "-1", text: titleOf(app, entry) });
  const colours = colourKey(app, entry.pictures[0]);
  if (entry.kind === "aim") {
    const how = "Turn it with a finger or the mouse. Then go through the steps one by one.";
    const words = [app.data.summary, how].map((text) => element("p", { text }));
    return [title, ...words, ...ticksSoFar(app), colours, caution(app.data.caution)];
  }
  const { step } = entry;
  const care = step.caution ? [caution(step.caution)] : [];
  return [title, listOf("ol", step.instructions), checkBox(app, step), ...care, ...mistakesHere(app, step), colours];
}

const caution = (text) => element("p", { class: "caution" }, element("b", { text: "Take care. " }), text);

/** What the colours of a picture mean. */
function colourKey({ data }, { paint }) {
  if (!paint) return "";
  const swatch = (colours, words) =>
    element("li", {}, ...colours.map((colour) => tinted(element("i", { class: "swatch" }), colour)), words);
  const items = paint.names.map((name, i) => swatch(paint.pairs[i], name));
  if (paint.toned.length > 0) {
    items.push(swatch([data.palette.groups[0]], "top group"), swatch([data.palette.groups[1]], "bottom group"));
    if (paint.toned.some(({ followed }) => followed > 0)) {
      items.push(swatch([data.palette.groups[2]], "one strand of the group"));
    }
    items.push(swatch([data.palette.dot[0]], "dotted face"), swatch([data.palette.plainFace], "plain face"));
  }
  return element("ul", { class: "key", "aria-label": "Colours" }, ...items);
}

function tinted(made, colour) {
  made.style.background = cssColour(colour);
  return made;
}

/** Buttons to the mistakes that are made at a step. */
function mistakesHere(app, step) {
  const ways = app.all.wrong.filter(({ way }) => String(way.step) === step.name.replace(/[a-z]$/, ""));
  if (ways.length === 0) return [];
  const button = (entry) =>
    element("button", { type: "button", class: "link", text: entry.way.title, onclick: () => showWrong(app, entry) });
  return [element("div", { class: "here" }, element("h3", { text: "What goes wrong here" }), ...ways.map(button))];
}

function wrongWords(app, way) {
  const off = way.off ? [element("h3", { text: "How far off" }), element("p", { text: way.off })] : [];
  return [
    element("h2", { id: "title", tabindex: "-1", text: titleOf(app, app.entry) }),
    element("h3", { text: "What gives it away" }),
    listOf("ul", way.signs),
    ...off,
    element("h3", { text: "Remedy" }),
    listOf("ol", way.back),
    caution(app.data.doubt),
    element("button", { type: "button", text: "Back to the steps", onclick: () => leaveWrong(app) }),
  ];
}

/** Shows a mistake beside the right way; the steps are returned to where they were left. */
function showWrong(app, entry) {
  if (app.entries === app.all.steps) app.leftAt = app.at;
  app.entries = app.all.wrong;
  goTo(app, app.all.wrong.indexOf(entry));
  openTab(app, "words");
  byId("title").focus();
}

function leaveWrong(app) {
  app.entries = app.all.steps;
  goTo(app, app.leftAt || 0);
}

/** A table of the plan's figures. */
function figureTable(caption, rows) {
  const heads = ["what", "how much", "measured from"].map((text) => element("th", { scope: "col", text }));
  const line = ({ label, shown, measured_from: from, formula, source, note }) =>
    element(
      "tr",
      {},
      element("th", { scope: "row" }, label, element("small", { text: `${formula} [${source}]` })),
      element("td", { text: shown }),
      element("td", {}, from, element("small", { text: note })),
    );
  const head = element("thead", {}, element("tr", {}, ...heads));
  return element("table", {}, element("caption", { text: caption }), head, element("tbody", {}, ...rows.map(line)));
}

/** Tables, cautions and the list of mistakes: the same for every step. */
function showTables(app) {
  const { tables } = app.data;
  byId("marks").replaceChildren(
    figureTable("Marks, in the order in which they are made", tables.marks),
    figureTable("Lengths", tables.lengths),
    figureTable("Angles, counts and tensions", tables.figures),
    ...(tables.words.length > 0 ? [element("h3", { text: "Words" }), listOf("ul", tables.words)] : []),
  );
  const warnings = [element("h3", { text: "Warnings of this plan" }), listOf("ul", tables.warnings)];
  const cautions = [element("h2", { text: "Cautions" }), listOf("ul", tables.cautions)];
  byId("care").replaceChildren(...cautions, ...(tables.warnings.length > 0 ? warnings : []));
  byId("wrongs").replaceChildren(
    element("h2", { text: "Usual mistakes" }),
    element("p", { text: "Tap the picture that looks like your rope. Each shows the mistake beside the right way." }),
    element("ol", { class: "mistake-grid" }, ...app.all.wrong.map((entry, at) => mistakeTile(app, entry, at + 1))),
  );
}

/** A mistake to tap: its number, its picture where the page holds one, its title and the step it is made at. */
function mistakeTile(app, entry, number) {
  const { state, step, title } = entry.way;
  const drawn = document.querySelector(`#plain img[data-state="${CSS.escape(state)}"]`);
  const picture = drawn ? element("img", { src: drawn.src, alt: "" }) : null;
  const words = element("span", { text: `${number}. ${title} (step ${step})` });
  return element("li", {}, element("button", { type: "button", onclick: () => showWrong(app, entry) }, picture, words));
}
