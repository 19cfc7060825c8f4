"""The shortest timetable of a small visit, several sprayers and passes, by an integer programme.

It shares no code with the estimator: starts, persons and orders are unknowns of one programme,
which HiGHS solves to proven optimality through scipy.

The rules: the first persons spray. One mix is made before the first spraying. A room is prepared,
sprayed by one person, each pass when the one before would dry, after every room that is left
through it; kept wet as long as one pass lasts; then finished. A person does one thing at a time.
Nobody is in a room while one on its way out is wet.
"""

from collections.abc import Mapping
from itertools import combinations
from typing import NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

PATIENCE = 120.0  # seconds


class Place(NamedTuple):
    """A room: how long its steps take, how often it is sprayed, and the rooms to the way out.

    ``spray`` is the time of one pass; ``hold`` that from one pass to the next, and how long the
    room keeps wet after the last.
    """

    prepare: float
    spray: float
    passes: int
    hold: float
    finish: float
    path: tuple[str, ...]


class Task(NamedTuple):
    """One step in a room; the mix is made in none."""

    room: str
    step: str
    time: float


class Programme:
    """Unknowns from 0 on, and rows that their sums must reach."""

    def __init__(self) -> None:
        self.most: list[float] = []
        self.whole: list[bool] = []
        self.rows: list[dict[int, float]] = []
        self.least: list[float] = []

    def unknown(self, most: float = 1.0, *, whole: bool = True) -> int:
        """Add an unknown: a yes or no unless it says otherwise."""
        self.most.append(most)
        self.whole.append(whole)
        return len(self.whole) - 1

    def at_least(self, least: float, row: Mapping[int, float]) -> None:
        """Add a row."""
        self.rows.append(dict(row))
        self.least.append(least)

    def smallest(self, goal: int) -> float:
        """Return the least that an unknown can be, proven."""
        matrix = np.zeros((len(self.rows), len(self.whole)))
        for number, row in enumerate(self.rows):
            matrix[number, list(row)] = list(row.values())
        for presolve in (True, False):  # the one fails where the other does not
            found = milp(
                np.eye(len(self.whole))[goal],
                integrality=np.array(self.whole, int),
                bounds=Bounds(0, self.most),
                constraints=LinearConstraint(matrix, self.least, np.inf),
                options={"time_limit": PATIENCE, "mip_rel_gap": 0.0, "presolve": presolve},
            )
            if found.status == 0:
                return float(found.x[goal])
        raise AssertionError(found.message)


def shortest(
    rooms: Mapping[str, Place], mix: float, *, crew: int, sprayers: int, most: float
) -> float:
    """Return the least time all the work takes, knowing that it takes no more than ``most``.

    All times are in minutes: the solver does not like large numbers.
    """
    much = most + max(max(room[:2] + room[3:5]) for room in rooms.values()) * len(rooms)
    programme = Programme()
    end = programme.unknown(most, whole=False)
    tasks = [Task("", "mix", mix)]
    for name, room in rooms.items():
        tasks.append(Task(name, "prepare", room.prepare))
        tasks += [Task(name, f"pass {turn}", room.spray) for turn in range(room.passes)]
        tasks.append(Task(name, "finish", room.finish))
    at = {(task.room, task.step): number for number, task in enumerate(tasks)}
    start = [programme.unknown(most, whole=False) for _ in tasks]
    does = [[programme.unknown() for _ in range(crew)] for _ in tasks]

    def after(later: int, earlier: int, gap: float, when: Mapping[int, bool] = {}) -> None:
        """Let a task start a gap after another, where all of some answers are given."""
        row = {start[later]: 1.0, start[earlier]: -1.0}
        row |= {answer: -much if yes else much for answer, yes in when.items()}
        programme.at_least(gap - much * sum(when.values()), row)

    for number, task in enumerate(tasks):
        programme.at_least(task.time, {end: 1.0, start[number]: -1.0})
        for sign in (1.0, -1.0):
            programme.at_least(sign, dict.fromkeys(does[number], sign))
        if task.step.startswith("pass"):
            after(number, at["", "mix"], mix)
            for assistant in does[number][sprayers:]:
                programme.at_least(0.0, {assistant: -1.0})
    for name, room in rooms.items():
        first, last = at[name, "pass 0"], at[name, f"pass {room.passes - 1}"]
        prepare, finish = at[name, "prepare"], at[name, "finish"]
        after(first, prepare, room.prepare)
        after(finish, last, room.spray + room.hold)
        for turn in range(1, room.passes):
            again = at[name, f"pass {turn}"]
            after(again, first, turn * room.hold)
            after(first, again, -turn * room.hold)
            for one, other in zip(does[first], does[again], strict=True):
                programme.at_least(0.0, {one: 1.0, other: -1.0})
        for other in room.path:
            wet, over = at[other, "pass 0"], at[other, f"pass {rooms[other].passes - 1}"]
            after(wet, last, room.spray)
            for stay in (prepare, finish):
                before = programme.unknown()
                after(wet, stay, tasks[stay].time, {before: True})
                after(stay, over, rooms[other].spray + rooms[other].hold, {before: False})
    for one, other in combinations(range(len(tasks)), 2):
        before = programme.unknown()
        for mine, theirs in zip(does[one], does[other], strict=True):
            after(other, one, tasks[one].time, {mine: True, theirs: True, before: True})
            after(one, other, tasks[other].time, {mine: True, theirs: True, before: False})
    return programme.smallest(end)
