// How the picture is looked at: views, parts, the cut; and the panel for measuring.

const CUTS = [
  ["off", "no cut"],
  ["across", "across the rope"],
  ["flat", "along, level"],
  ["upright", "along, upright"],
];
const SIDEWAYS = ["across", "upright"];
const VIEWS = [
  ["corner", "from a corner"],
  ["above", "from above"],
  ["below", "from below"],
  ["left", "from the left"],
  ["right", "from the right"],
  ["captive", "from the captive end"],
  ["eye", "from the eye"],
];

function showLook(app) {
  const named = app.pictures.flatMap(({ paint }) => (paint ? paint.parts.map((part, i) => [part, paint.names[i]]) : []));
  const focused = document.activeElement;
  byId("parts").replaceChildren(...[...new Map(named)].map(([part, name]) => partRow(app, part, name)));
  if (!focused.isConnected && byId(focused.id)) byId(focused.id).focus();
  showViews(app);
  showInto(app);
  if (focused.closest("#corner") && focused.offsetParent === null) app.canvas.focus();
  showCut(app);
  byId("see-through").setAttribute("aria-pressed", String(app.choices.parts[STANDING_PART] === CLEAR));
}

function partRow(app, part, name) {
  const ways = [SHOWN, CLEAR, HIDDEN].map((value) => [value, value]);
  const onchange = ({ target }) => choosePart(app, part, target.value);
  const id = `part-${part}`;
  return row(name, choice({ id, onchange }, ways, app.choices.parts[part] || SHOWN));
}

function choosePart(app, part, value) {
  app.choices.parts[part] = value;
  showLook(app);
  redraw(app);
}

/** Sees through the standing part, in which the tail is buried, and back. */
function seeThrough(app) {
  const clear = app.choices.parts[STANDING_PART] === CLEAR;
  choosePart(app, STANDING_PART, clear ? SHOWN : CLEAR);
}

function showViews(app) {
  const views = app.pictures[0].views || [];
  const own = views.map((_, i) => [`own-${i}`, i === 0 ? "the step's own" : "the step's other"]);
  const select = byId("view");
  select.replaceChildren(...[...own, ...VIEWS].map(([value, text]) => element("option", { value, text })));
  select.value = `own-${app.view}`;
  byId("other").hidden = own.length < 2;
}

/** Looks from a view of the step, or from a standard one. */
function chooseView(app, value) {
  app.into = null;
  showInto(app);
  if (value.startsWith("own-")) {
    app.view = Number(value.slice(4));
    app.cameras = [];
    fitCanvas(app);
  } else {
    app.pictures.forEach((picture, i) => {
      const [, , width, height] = app.boxes[i];
      if (picture.views) {
        app.cameras[i] = { ...standardCamera(picture, value, width, height, app.data.diameter), picture, moved: true };
      }
    });
  }
  byId("view").value = value;
  redraw(app);
}

function goHome(app) {
  chooseView(app, "own-0");
}

/** The step's other view, where it has two. */
function nextView(app) {
  const { views } = app.pictures[0];
  if (views) chooseView(app, `own-${(app.view + 1) % views.length}`);
}

function showCut(app) {
  const { cut } = app.choices;
  byId("cut-way").value = cut.way;
  byId("cut-only").value = cut.only;
  byId("cut-place").value = String(cut.place);
  byId("cut-place").disabled = cut.way === "off";
}

function chooseCut(app, change) {
  const { cut } = app.choices;
  const was = cut.way;
  Object.assign(cut, change);
  if (cut.way !== was) cut.place = cut.way === "flat" ? 0.5 : cutPlace(app);
  if (cut.way !== was) app.into = null;
  showInto(app);
  if (SIDEWAYS.includes(cut.way)) app.pictures.forEach((_, i) => faceCut(app, i));
  else if (SIDEWAYS.includes(was)) goHome(app);
  showCut(app);
  redraw(app);
}

/** Where a cut shows most, as a share of the rope's columns: in the finished bury, else through a hole. */
function cutPlace(app) {
  const { state, marks } = app.pictures[0];
  const rope = ropeIn(app.store, state, false);
  const hole = marks.find(({ letter }) => letter === "H2") || marks[0];
  if (state === app.data.aim || !rope || !hole) return app.data.cutPlace;
  return (hole.station - rope.station[0]) / (rope.station[rope.n - 1] - rope.station[0]);
}

/** Turns panel i to a cut that isn't seen from above: to one across the rope, from the side of the tail's end. */
function faceCut(app, i) {
  const picture = app.pictures[i];
  const rope = ropeIn(app.store, picture.state, false);
  if (!rope) return;
  const [, , width, height] = app.boxes[i];
  const { cut } = app.choices;
  const { centre, along } = cutPlaceOf(cut, rope);
  const direction = cut.way === "across" ? add(along, [0, 0, 0.55]) : add(cross(along, [0, 0, 1]), [0, 0, 0.35]);
  const axes = axesOf(direction, [0, 0, 1]);
  const scale = Math.min(width, height) / ((cut.way === "across" ? 6 : 9) * app.data.diameter);
  app.cameras[i] = { ...sized({ ...axes, centre, scale }, width, height), picture, moved: true };
}

const SWITCHES = [
  ["terminator", "terminator", (c, on) => (c.bodies.terminator = on), (c) => c.bodies.terminator],
  ["tools", "fids and other tools", (c, on) => (c.bodies.tools = on), (c) => c.bodies.tools],
  ["arrow", "arrow for what moves", (c, on) => (c.bodies.arrow = on), (c) => c.bodies.arrow],
  ["letters", "marks with their letters", (c, on) => (c.marks = on), (c) => c.marks],
  ["labels", "other labels", (c, on) => (c.words = on), (c) => c.words],
  ["numbers", "numbers on the strands", (c, on) => (c.numbers = on), (c) => c.numbers],
  ["ghost", "where the rope lay before", (c, on) => (c.ghost = on), (c) => c.ghost],
];

/** The panel's fixed controls, made once. */
function makeLook(app) {
  const box = ([id, words, set, get]) => {
    const input = element("input", { type: "checkbox", id: `show-${id}`, checked: get(app.choices) });
    input.addEventListener("change", () => {
      set(app.choices, input.checked);
      redraw(app);
    });
    return element("div", { class: "tick" }, input, element("label", { for: `show-${id}`, text: words }));
  };
  byId("switches").replaceChildren(...SWITCHES.map(box));
  byId("view").addEventListener("change", ({ target }) => chooseView(app, target.value));
  byId("home").addEventListener("click", () => goHome(app));
  byId("other").addEventListener("click", () => nextView(app));
  byId("nearer").addEventListener("click", () => zoomAll(app, 1.35));
  byId("farther").addEventListener("click", () => zoomAll(app, 1 / 1.35));
  byId("see-through").addEventListener("click", () => seeThrough(app));
  byId("into").addEventListener("click", () => lookInto(app));
  byId("cut-way").replaceChildren(...CUTS.map(([value, text]) => element("option", { value, text })));
  byId("cut-way").addEventListener("change", ({ target }) => chooseCut(app, { way: target.value }));
  byId("cut-only").addEventListener("change", ({ target }) => chooseCut(app, { only: target.value }));
  byId("cut-place").addEventListener("input", ({ target }) => chooseCut(app, { place: Number(target.value) }));
  for (const id of ["mark-a", "mark-b"]) byId(id).addEventListener("change", () => measureMarks(app));
  byId("measure-clear").addEventListener("click", () => {
    app.measured.points = [];
    showMeasured(app);
    redraw(app);
  });
}

function zoomAll(app, factor) {
  moveCameras(app, (camera) => zoomed(camera, factor, [0, 0]));
}

/** Changes the cameras of all panels alike. */
function moveCameras(app, change) {
  app.cameras = app.cameras.map((camera) => camera && { ...change(camera), picture: camera.picture, moved: true });
  redraw(app);
}

function showMeasurePanel(app) {
  const letters = (app.pictures[0].marks || []).map(({ letter }) => [letter, letter]);
  for (const id of ["mark-a", "mark-b"]) {
    const options = [["", "a mark"], ...letters].map(([value, text]) => element("option", { value, text }));
    byId(id).replaceChildren(...options);
  }
  showMeasured(app);
}
