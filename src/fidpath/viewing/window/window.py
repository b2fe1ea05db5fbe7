"""The desktop window: the splice to turn and to go through step by step, parts on and off, cut, translucent.

It holds no geometry: `step_scene` says what to draw, `background` settles it behind the window, `actors` draw it with
VTK through pyvista, and this answers keys.
"""

from __future__ import annotations

import signal
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Any

from fidpath.cautions import BESIDE_PICTURES
from fidpath.errors import OutputError
from fidpath.job import read_job
from fidpath.machine import results_folder
from fidpath.methods import Method, method_of
from fidpath.planning import Plan, make_plan
from fidpath.viewing.window.actors import Canvas
from fidpath.viewing.window.display import check_display, save_picture
from fidpath.viewing.window.settling_thread import Ready, Settler
from fidpath.viewing.window.step_scene import LAYERS, Layer, WindowView, entries, halves, plane

PAUSE = 0.01
"""Seconds between two looks for keys and settled states."""

CLEAR = 0.22
"""Opacity of a translucent standing part."""

NUDGE = 0.04
"""How far a key moves the cutting plane, as a share of its way."""

CUTS = ("", "level", "across")
"""Cuts in the order in which their key brings them."""

CUT_SAID = {
    "": "Nothing is cut.",
    "level": "Cut level: the standing part alone; X cuts all of the rope.",
    "across": "Cut across all of the rope.",
}

HELP = (
    "Left, right: the step before, the next",
    "Home, End: the first step, the last",
    "W: the mistakes made at this step, and back",
    "Drag: turn. Wheel: nearer. Shift and drag: move",
    "A, D, R, F: turn. + and -: nearer, further",
    "H: the step's own view. V: its next view. K: hold the view from step to step",
    "1 standing part, 2 eye, 3 between the holes, 4 tail, 5 terminator, 6 tools, 7 marks: leave out, show",
    "T: standing part seen through",
    "C: cut level, cut across, no cut. [ and ]: move the cut. X: cut all, or the standing part alone",
    "I: words. P: save a picture. ?: these keys",
    "Q or Escape: close",
)


@dataclass
class Choices:
    """What a person has chosen to see."""

    number: int = 0
    hidden: set[Layer] = field(default_factory=set)
    clear: bool = False
    cut: str = ""
    place: float = 0.5
    whole: bool = False
    view: int = 0
    words: bool = True
    keys: bool = False
    held: bool = False


def show_job(job: Path, folder: Path | None) -> None:
    """Shows the job's splice in a window until it is closed; pictures go into `folder` or the job's own in exports/.

    Raises JobError, CannotBeMade, OutputError, EnvironmentProblem, and KeyboardInterrupt after a Ctrl-C.
    """
    plan = make_plan(read_job(job))
    shown = method_of(plan.job.line.ends[0].splice)
    pictures = results_folder(plan.job.name, folder)
    check_display()
    Window(plan, pictures, shown).run()


class Window:
    """One window on one job: what is chosen, what has settled, and the loop that answers."""

    def __init__(self, plan: Plan, folder: Path, shown: Method) -> None:
        self.plan = plan
        self.folder = folder
        self.entries = entries(plan, shown)
        self.steps = sum(entry.step is not None for entry in self.entries)
        self.views: dict[int, Ready | str] = {}
        self.actors: dict[int, dict[Layer, list[Any]]] = {}
        self.cut_away: list[tuple[Layer, Any]] = []
        self.cut_for: tuple[object, ...] = ()
        self.choices = Choices()
        self.shown = -1
        self.said = ""
        self.open = True
        self.canvas = Canvas(plan.job.name)
        self.settler = Settler(plan, self.entries, self.canvas.body)
        self.slider: Any = None

    def run(self) -> None:
        """Shows the window until it is closed. Raises KeyboardInterrupt after a Ctrl-C."""
        stopped: list[int] = []
        before = signal.signal(signal.SIGINT, lambda number, _frame: stopped.append(number))
        self.settler.start()
        try:
            self._open()
            while self.open and not stopped:
                self.canvas.plotter.iren.process_events()
                self._take()
                time.sleep(PAUSE)
        finally:
            signal.signal(signal.SIGINT, before)
            self.settler.close()
            self.canvas.plotter.close()
        if stopped:
            raise KeyboardInterrupt

    def _open(self) -> None:
        self.canvas.open()
        self.slider = self.canvas.slider(self.steps, lambda value: self.go(round(value) - 1))
        interactor = self.canvas.plotter.iren.interactor
        interactor.AddObserver("KeyPressEvent", lambda caller, _event: self.key(caller.GetKeySym()))
        interactor.AddObserver("ExitEvent", lambda *_: self._close())
        self.refresh()

    def _close(self) -> None:
        self.open = False

    def _take(self) -> None:
        """Takes in what has settled; draws it if it is waited for."""
        for number, found in self.settler.taken():
            self.views[number] = found
            if number == self.choices.number:
                self.refresh()

    def key(self, name: str) -> None:
        """Answers a key by its X name."""
        act = KEYS.get(name)
        if act is not None:
            self.said = ""
            act(self)
            if self.open:
                self.refresh()

    def go(self, number: int) -> None:
        """Goes to a step, counted from 0, and stays within the method's."""
        number = min(max(number, 0), self.steps - 1)
        if number != self.choices.number:
            self.choices.number = number
            self.refresh()

    def step(self, by: int) -> None:
        """Goes on or back; from a mistake, to its own step's neighbours."""
        self.choices.number = min(max(self.entries[self.choices.number].place + by, 0), self.steps - 1)

    def mistake(self) -> None:
        """The next mistake that is made at this step, or the step again after the last."""
        here = self.entries[self.choices.number]
        number = self._step_number(here.place)
        own = [i for i, e in enumerate(self.entries) if e.mistake is not None and e.mistake.step_number == number]
        if not own:
            self.said = "No mistake of this step is modelled."
            return
        later = [i for i in own if i > self.choices.number]
        self.choices.number = here.place if here.mistake is not None and not later else (later or own)[0]

    def _step_number(self, place: int) -> int:
        step = self.entries[place].step
        return 0 if step is None else step.number

    def refresh(self) -> None:
        """Draws what is chosen as far as it has settled, and says what it is."""
        number = self.choices.number
        found = self.views.get(number)
        if found is None:
            self.settler.want(number)
        elif isinstance(found, Ready):
            self._draw(number, found)
        self._write(number, found)
        self.canvas.render()

    def _draw(self, number: int, ready: Ready) -> None:
        view = ready.view
        if number not in self.actors:
            self.actors[number] = self._actors(ready)
        if number != self.shown:
            self.choices.view = 0
            if not self.choices.held or self.shown < 0:
                self.canvas.look(view.cameras[0])
            self._show(self.shown, False)
            self.shown = number
        labels = () if Layer.MARKS in self.choices.hidden else view.labels
        self.canvas.mark(labels, view.model.line, view.model.d)
        numbered = Layer.MARKS not in self.choices.hidden and not self.choices.cut
        self.canvas.numbers.put(view.model, view.numbers if numbered else ())
        self._show(number, True)
        self._cut(number, view)

    def _wanted_cut(self, number: int) -> tuple[object, ...]:
        """All that a cut's surfaces depend on."""
        chosen = self.choices
        return (number, chosen.cut, chosen.place, chosen.whole, frozenset(chosen.hidden))

    def _actors(self, ready: Ready) -> dict[Layer, list[Any]]:
        """A view's actors by layer."""
        found: dict[Layer, list[Any]] = {layer: [] for layer in Layer}
        for layer, body in ready.bodies:
            found[layer].append(self.canvas.add(body))
        return found

    def _show(self, number: int, wanted: bool) -> None:
        """Switches a view's actors on, as far as they are chosen, or off."""
        for layer, actors in self.actors.get(number, {}).items():
            for actor in actors:
                actor.visibility = wanted and layer not in self.choices.hidden
                self._clear(layer, actor)

    def _clear(self, layer: Layer, actor: Any) -> None:
        """The standing part is seen through where that is chosen: only its surface toward the viewer is drawn."""
        clear = self.choices.clear and layer is Layer.STANDING_PART
        actor.prop.opacity = CLEAR if clear else 1.0
        actor.prop.culling = "back" if clear else "none"

    def _cut(self, number: int, view: WindowView) -> None:
        """Puts what a cut leaves, with its faces, in place of the parts it goes through."""
        wanted = self._wanted_cut(number)
        if wanted != self.cut_for:
            self.canvas.drop(actor for _, actor in self.cut_away)
            self.cut_away, self.cut_for = list(self._halves(view)), wanted
        for layer, actor in self.cut_away:
            self._clear(layer, actor)
            for whole in self.actors[number][layer]:
                whole.visibility = False

    def _halves(self, view: WindowView) -> Iterator[tuple[Layer, Any]]:
        """Actors of what the cut leaves and of its faces, by layer."""
        if not self.choices.cut:
            return
        keep = plane(view, self.choices.cut, self.choices.place)
        every = self.choices.whole or self.choices.cut == "across"
        for part in view.parts:
            layer = LAYERS[part.part]
            if layer in self.choices.hidden or not (every or layer is Layer.STANDING_PART):
                continue
            for solid in halves(view, part, keep):
                if len(solid.mesh.faces):
                    yield layer, self.canvas.add(self.canvas.body(solid))

    def _write(self, number: int, found: Ready | str | None) -> None:
        """Title, words and what else there is to say."""
        entry = self.entries[number]
        said = [self.said] if self.said else []
        if found is None:
            said.append("This state is still being settled; it appears when it is ready.")
        elif isinstance(found, str):
            said.append(f"This state can't be made for this job: {found}.")
        self.slider.GetRepresentation().SetValue(entry.place + 1)
        self.slider.GetRepresentation().SetLabelFormat(entry.number)
        mark = "" if isinstance(found, Ready) else " (settling)" if found is None else " (can't be made)"
        self.canvas.plotter.render_window.SetWindowName(f"{self.plan.job.name}: {entry.title}{mark}")
        words = HELP if self.choices.keys else (*entry.words, BESIDE_PICTURES) if self.choices.words else ()
        self.canvas.page(entry.title, words, said, "? for the keys")

    def home(self, on: int = 0) -> None:
        """The step's own view, or the one after it."""
        found = self.views.get(self.choices.number)
        if isinstance(found, Ready):
            cameras = found.view.cameras
            self.choices.view = (self.choices.view + on) % len(cameras)
            self.canvas.look(cameras[self.choices.view])

    def leave_out(self, layer: Layer) -> None:
        """Leaves a layer out, or shows it again."""
        self.choices.hidden ^= {layer}

    def switch(self, name: str) -> None:
        """Turns a choice on or off."""
        setattr(self.choices, name, not getattr(self.choices, name))
        if name == "held":
            self.said = "The view is held from step to step." if self.choices.held else "Each step has its own view."

    def next_cut(self) -> None:
        """The next way of cutting, or none."""
        self.choices.cut = CUTS[(CUTS.index(self.choices.cut) + 1) % len(CUTS)]
        self.choices.place = 0.5
        self.said = CUT_SAID[self.choices.cut]

    def move_cut(self, by: float) -> None:
        """Moves the cutting plane."""
        self.choices.place = min(max(self.choices.place + by, 0.0), 1.0)

    def picture(self) -> None:
        """Saves what the window shows; what stands in the way is said in the window."""
        entry = self.entries[self.choices.number]
        try:
            self.said = f"Saved {save_picture(self.folder, f'window-{entry.kind}', self.canvas.picture())}"
        except OutputError as problem:
            self.said = f"Not saved: {problem.what}. {problem.remedy}."

    def quit(self) -> None:
        """Closes the window."""
        self.open = False


TURN = 10.0
"""Degrees that a key turns the splice by."""

KEYS: dict[str, Callable[[Window], None]] = {
    "Right": lambda w: w.step(1),
    "Left": lambda w: w.step(-1),
    "Home": lambda w: w.step(-len(w.entries)),
    "End": lambda w: w.step(len(w.entries)),
    "w": Window.mistake,
    "h": Window.home,
    "v": lambda w: w.home(1),
    "k": lambda w: w.switch("held"),
    "a": lambda w: w.canvas.turn(-TURN, 0),
    "d": lambda w: w.canvas.turn(TURN, 0),
    "r": lambda w: w.canvas.turn(0, TURN),
    "f": lambda w: w.canvas.turn(0, -TURN),
    "t": lambda w: w.switch("clear"),
    "c": Window.next_cut,
    "x": lambda w: w.switch("whole"),
    "bracketleft": lambda w: w.move_cut(-NUDGE),
    "bracketright": lambda w: w.move_cut(NUDGE),
    "i": lambda w: w.switch("words"),
    "p": Window.picture,
    **dict.fromkeys(("plus", "equal", "KP_Add"), lambda w: w.canvas.zoom(1.15)),
    **dict.fromkeys(("minus", "KP_Subtract"), lambda w: w.canvas.zoom(1 / 1.15)),
    **dict.fromkeys(("question", "F1"), lambda w: w.switch("keys")),
    **dict.fromkeys(("q", "Escape"), Window.quit),
    **{str(number): partial(Window.leave_out, layer=layer) for number, layer in enumerate(Layer, start=1)},
}
"""What each key does, by its X name."""
