"""From a changed height to every new number, beside a bare numpy pass over the same edges.

The bare pass is the least anyone must do: for each room, lengths of its edges times its height.
"""

import statistics
import time

import numpy as np
import pytest
import shapely

from estimator.catalogue.loader import packaged_book
from estimator.estimation.chain import estimate
from estimator.estimation.job import Job
from estimator.plan.edits import with_height
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.surfaces.measure import measure

BOOK = packaged_book()
JOB = Job(product=BOOK.products[0].slug, sprayer=BOOK.sprayers[0].slug)
USES = ("office", "meeting_room", "toilet", "kitchen")


def building(rooms):
    """Corridors of twenty rooms of 3 to 6 m by 4 m, each corridor with a door to the outside."""

    def room(at):
        wing, place = divmod(at, 21)
        top, left, width = 8.0 * wing, 6.0 * (place - 1), 3.0 + at % 4
        corridor = place == 0
        outline = (
            rectangle(120.0, 2.0, top=top)
            if corridor
            else rectangle(width, 4.0, left=left, top=top + 2.5)
        )
        start = (0.0, top + 0.5) if corridor else (left + 1.0, top + 2.5)
        end = (0.0, top + 1.4) if corridor else (left + 1.9, top + 2.5)
        door = Opening(
            id=f"d{at}",
            kind=OpeningKind.DOOR,
            start=start,
            end=end,
            leads_to=None if corridor else str(21 * wing),
        )
        return Room(
            id=str(at),
            name=f"Room {at}",
            use="corridor" if corridor else USES[at % len(USES)],
            outline=outline,
            ceiling_height=2.7,
            openings=(door,),
        )

    return Plan(title="Building", rooms=tuple(room(at) for at in range(rooms)))


def bare_pass(plan):
    total = 0.0
    for room in plan.rooms:
        corners = shapely.get_coordinates(room.outline)
        total += float(np.hypot(*np.diff(corners, axis=0).T).sum() * room.ceiling_height)
    return total


def median_seconds(run, times):
    taken = []
    for at in range(times):
        began = time.perf_counter()
        run(at)
        taken.append(time.perf_counter() - began)
    return statistics.median(taken)


@pytest.mark.parametrize("rooms", [200, 2000, 10_000])
def test_from_a_changed_height_to_every_new_number(rooms, capsys):
    plan = building(rooms)
    estimate(plan, BOOK, JOB, date="2026-11-25", version="0")
    times = 15 if rooms <= 200 else 3

    def changed(at):
        return with_height(plan, "7", 2.5 + 0.01 * at)

    def whole(at):
        estimate(changed(at), BOOK, JOB, date="2026-11-25", version="0")

    def surfaces(at):
        measure(changed(at), BOOK.surfaces, JOB.scope)

    bare = median_seconds(lambda _: bare_pass(plan), times)
    measured = median_seconds(surfaces, times)
    quoted = median_seconds(whole, times)
    with capsys.disabled():
        print(
            f"\n{rooms:6d} rooms: bare pass {bare * 1e3:.1f} ms, "
            f"surfaces {measured / bare:.2f}×, whole quote {quoted / bare:.2f}× "
            f"({quoted * 1e3:.0f} ms)"
        )
    assert measured <= 3 * bare
