"""Time of measuring 10,000 and 200 rooms, beside a bare numpy pass over the same edges.

Run with ``python tests/benchmarks/bench_surfaces.py``.
"""

import gc
import statistics
import time
from collections.abc import Callable

import numpy as np
import shapely
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.plan.geometry import polygon
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.surfaces import measure as measuring
from estimator.surfaces.measure import measure
from estimator.surfaces.scope import Scope

USES = ("bedroom", "kitchen", "office", "classroom", "corridor", "toilet", "exam_room", "lobby")


def site(count: int, seed: int = 0) -> Plan:
    """Return an invented site of L-shaped rooms with a door and a window each."""
    sizes = np.random.default_rng(seed).uniform(2.5, 9.0, (count, 2)).round(2)
    return Plan(
        rooms=tuple(
            Room(
                id=str(number),
                name=f"Room {number}",
                use=USES[number % len(USES)],
                outline=polygon([(0, 0), (w, 0), (w, d / 2), (w / 2, d / 2), (w / 2, d), (0, d)]),
                ceiling_height=2.7,
                openings=(
                    Opening(id="d", kind=OpeningKind.DOOR, start=(0.2, 0.0), end=(1.1, 0.0)),
                    Opening(id="w", kind=OpeningKind.WINDOW, start=(0.0, 0.3), end=(0.0, 1.5)),
                ),
            )
            for number, (w, d) in enumerate(sizes.tolist())
        )
    )


def bare_pass(plan: Plan) -> Callable[[], np.ndarray]:
    """Return the least any program must do: floor and wall area of every room from its edges."""
    outlines = [room.outline for room in plan.rooms]
    points, of_room = shapely.get_coordinates(outlines, return_index=True)
    firsts = np.flatnonzero(np.r_[True, of_room[1:] != of_room[:-1]])
    inside = of_room[1:] == of_room[:-1]
    heights = np.array([room.ceiling_height for room in plan.rooms])

    def once() -> np.ndarray:
        x, y = points.T
        step = np.diff(points, axis=0)
        length = np.hypot(step[:, 0], step[:, 1]) * inside
        turn = (x[:-1] * y[1:] - x[1:] * y[:-1]) * inside
        floor = np.abs(np.add.reduceat(turn, firsts)) / 2
        return floor + np.add.reduceat(length, firsts) * heights

    return once


def milliseconds(work: Callable[[], object], repeats: int = 9) -> float:
    """Return the median time of the work, with the collector out of the way."""
    took = []
    gc.collect()
    gc.disable()
    try:
        for _ in range(repeats):
            start = time.perf_counter()
            work()
            took.append(1000 * (time.perf_counter() - start))
    finally:
        gc.enable()
    return statistics.median(took)


def one_by_one(plan: Plan) -> Callable[[], list[float]]:
    """Return the same as a bare pass, but room by room."""
    rings = [(shapely.get_coordinates(room.outline), room.ceiling_height) for room in plan.rooms]

    def once() -> list[float]:
        areas = []
        for points, height in rings:
            x, y = points.T
            floor = abs(x[:-1] @ y[1:] - x[1:] @ y[:-1]) / 2
            areas.append(floor + np.hypot(*np.diff(points, axis=0).T).sum() * height)
        return areas

    return once


def report(count: int) -> str:
    """Return the times for a site of so many rooms, in one line."""
    book, scope = packaged_book().surfaces, Scope(walls_to=2.4)
    plan = site(count)
    bare = milliseconds(bare_pass(plan), repeats=25)
    looped = milliseconds(one_by_one(plan), repeats=5)

    def anew() -> None:
        # Rooms are unknown again; hashes of rooms and rows of usual furniture stay.
        measuring._known.cache_clear()
        measure(plan, book, scope)

    first = milliseconds(anew, repeats=1)
    again = milliseconds(anew, repeats=5)
    changed = [
        evolve(
            plan,
            rooms=(evolve(plan.rooms[0], ceiling_height=2.71 + number / 100), *plan.rooms[1:]),
        )
        for number in range(9)
    ]
    one_height = milliseconds(lambda: measure(changed.pop(), book, scope), repeats=9)
    return (
        f"{count:6d} rooms: bare numpy pass {bare:.2f} ms, room by room {looped:.1f} ms; "
        f"one changed height {one_height:.2f} ms ({one_height / bare:.1f} x bare); "
        f"all anew {again:.1f} ms ({again / looped:.1f} x room by room); "
        f"very first {first:.1f} ms"
    )


if __name__ == "__main__":
    for rooms in (200, 10_000):
        print(report(rooms))
