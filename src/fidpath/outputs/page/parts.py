"""What a page is put together from: each part is made of one state and one step alone, and kept as states arrive."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np

from fidpath.methods import Method, Mistake, Step, worded, worded_mistake
from fidpath.outputs.page.content import home, step_picture, wrong_picture
from fidpath.outputs.page.record import Record, strands_record
from fidpath.planning import Plan
from fidpath.settling import SettledState


@dataclass(frozen=True)
class Parts:
    """What a page is put together from: plain data.

    states: packed strands by kind; steps: pictures' records by state; wrong: the same by name; aim: of the last state.
    old: kinds whose parts are of the figures before, shown as such until theirs arrive.
    """

    states: Mapping[str, Any]
    steps: Mapping[str, Any]
    wrong: Mapping[str, Any]
    aim: Mapping[str, Any]
    old: Collection[str] = ()

    def over(self, before: Parts) -> Parts:
        """These parts, and in the place of those that are not there yet the ones of the figures before."""
        old = tuple(kind for kind in before.states if kind not in self.states)
        return Parts(
            {**{kind: before.states[kind] for kind in old}, **self.states},
            {**before.steps, **self.steps},
            {**before.wrong, **self.wrong},
            before.aim if before.aim and before.aim["aim"] in old else self.aim,
            old,
        )


class GrowingParts:
    """The parts of a page whose states arrive one by one: of each only what has changed is made anew."""

    def __init__(self, plan: Plan, method: Method) -> None:
        self._plan, self._method = plan, method
        self._there: dict[str, SettledState] = {}
        self._made: dict[tuple[str, ...], tuple[tuple[int, ...], Record]] = {}
        shown = {*(step.state for step in method.steps), *(mistake.name for mistake in method.mistakes)}
        self._between = {step.state: step.between for step in method.steps}
        self._shown = shown.union((way.beside for way in method.mistakes), *self._between.values())

    def add(self, made: SettledState) -> None:
        """A state that has arrived."""
        self._there[made.kind] = made

    def parts(self, to_come: Collection[str] = ()) -> Parts:
        """The parts of the states there are; those the method doesn't show are left out.

        to_come: kinds that are still to arrive. A step's picture shows what has changed since the step before, so one
        whose step before is to come is left out with its state, but for the finished splice's, which all wait for.
        """
        before = {step.state: last.state for last, step in pairwise(self._method.steps)}
        held = {kind for kind, last in before.items() if last in to_come and kind != self._method.finished}
        there = {kind: made for kind, made in self._there.items() if kind not in held}
        shown = [step for step in self._method.steps if step.state in there]
        steps = {step.state: self._step(step, self._there.get(before.get(step.state, ""))) for step in shown}
        ways = [way for way in self._method.mistakes if way.name in there and way.beside in there]
        wrong = {way.name: self._wrong(way) for way in ways}
        states = {kind: self._strands(found) for kind, found in there.items() if kind in self._shown}
        return Parts(states, steps, wrong, aim_record(there[shown[-1].state], self._plan) if shown else {})

    def lighten(self) -> None:
        """Lets go of the states' drawn sections, which take most of their memory: they are made again where needed."""
        self._there = {kind: replace(made) for kind, made in self._there.items()}

    def _step(self, step: Step, before: SettledState | None) -> Record:
        made = self._there[step.state]
        between = self._on_the_way(step)
        given = (made, *between) if before is None else (made, before, *between)
        return self._once(
            ("step", step.state),
            given,
            lambda: step_picture(self._plan, worded(step, self._plan), made, before, between),
        )

    def _on_the_way(self, step: Step) -> list[SettledState]:
        """The states there are between the step before and this one."""
        return [self._there[kind] for kind in step.between if kind in self._there]

    def _wrong(self, way: Mistake) -> Record:
        given = self._there[way.name], self._there[way.beside]
        return self._once(
            ("wrong", way.name), given, lambda: wrong_picture(self._plan, worded_mistake(way, self._plan), *given)
        )

    def _strands(self, made: SettledState) -> Record:
        return self._once(("strands", made.kind), (made,), lambda: strands_record(made.settled.strands))

    def _once(self, name: tuple[str, ...], given: tuple[SettledState, ...], make: Callable[[], Record]) -> Record:
        """A record, made anew only where one of the states it is made of is another."""
        own = tuple(id(state.settled) for state in given)
        kept = self._made.get(name)
        if kept is None or kept[0] != own:
            self._made[name] = kept = (own, make())
        return kept[1]


def parts_of(plan: Plan, made: Sequence[SettledState], method: Method) -> Parts:
    """The parts of a page of these states; those the method doesn't show are left out."""
    growing = GrowingParts(plan, method)
    for state in made:
        growing.add(state)
    return growing.parts()


def aim_record(made: SettledState, plan: Plan) -> dict[str, Any]:
    """What is to be made, as it is shown first."""
    return {"aim": made.kind, "home": home(made, plan), "cutPlace": _cut_place(made, plan)}


def _cut_place(made: SettledState, plan: Plan) -> float:
    """Where a cut across shows most, as a share of the model's columns: in the bury, a little below the entry."""
    station = made.settled.strands.station
    wanted = plan.station_entry_host - 4 * plan.braid.diameter
    return round(float(np.interp(wanted, station, np.linspace(0, 1, len(station)))), 3)
