"""The truth is that of the sample plans, which are drawn to exact sizes; the tolerances are ours.

Four samples are read here; `tests/benchmarks` reads them all.
"""

import math

import numpy as np
import pytest

from estimator.lettering.labels import labels_of
from estimator.lettering.lettered import Lettered, scaled
from estimator.lettering.naming import placed
from estimator.plan.doubt import Aspect
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.reading.picture import Picture

SAMPLES = ["hill house", "orchard bungalow", "weavers loft", "cafe sketch"]


@pytest.mark.parametrize("title", SAMPLES)
def test_the_scale_of_a_sample_is_found(read_sample, title):
    truth, _, found, picture = read_sample(title)
    true = truth.scale.metres_per_px * truth.storeys[0].source.width_px / picture.width_px

    assert found.plan.scale.metres_per_px == pytest.approx(true, rel=0.01)
    assert found.plan.scale.relative_error <= 0.05


@pytest.mark.parametrize("title", SAMPLES)
def test_nearly_all_names_of_a_sample_are_read(read_sample, title):
    truth, _, found, _ = read_sample(title)
    names = {room.name.casefold() for room in truth.rooms}
    seen = {part.casefold() for room in found.plan.rooms for part in room.name.split(" / ")}
    seen |= {room.name.casefold() for room in found.plan.rooms}

    assert len(names & seen) >= len(names) - 1


def test_the_votes_of_a_sample_are_shown(read_sample):
    _, _, found, _ = read_sample("weavers loft")
    kinds = {vote.kind for vote in found.votes if vote.agrees}

    assert {"room sides", "scale bar", "total area"} <= kinds
    assert found.plan.scale.basis.endswith(
        "printed figures (20 room sides, 1 scale bar, 1 total area)"
    )


PIXELS = Picture(pixels=np.full((400, 900, 3), 255, np.uint8))


def rooms(*sizes):
    """Rooms side by side, so many pixels wide and deep."""
    lefts = np.cumsum([0, *(width + 10 for width, _ in sizes)])
    return tuple(
        Room(id=f"room-{at}", name=f"Room {at}", outline_px=rectangle(*size, left=left))
        for at, (size, left) in enumerate(zip(sizes, lefts.tolist(), strict=False), start=1)
    )


def scaled_by_sizes(plan, texts, line, words):
    lines = [
        line(text, (room.outline_px.centroid.x, 100.0))
        for room, text in zip(plan.rooms, texts, strict=True)
    ]
    return scaled(Lettered(plan=plan, labels=placed(labels_of(lines, words), plan)), PIXELS)


def test_a_room_drawn_otherwise_than_printed_is_named(line, words):
    plan = Plan(rooms=rooms((400, 300), (200, 270), (100, 150)))

    found = scaled_by_sizes(plan, ["4.00 x 3.00 m", "2.00 x 3.20 m", "1.00 x 1.50 m"], line, words)

    assert found.plan.scale.metres_per_px == pytest.approx(0.01, rel=0.005)
    doubts = [doubt for doubt in found.plan.doubts if doubt.aspect is Aspect.OUTLINE]
    assert [(doubt.room, doubt.says) for doubt in doubts] == [
        ("room-2", "Room 2 is printed 3.2 m but drawn 2.7 m.")
    ]
    assert doubts[0].relative_error == pytest.approx(math.log(3.2 / 2.7) / 2, abs=0.01)


def test_a_printed_size_is_the_largest_extent_and_not_the_area(line, words):
    # An L of 4 by 3 m outside, a quarter of it missing.
    outline = rectangle(400, 300).difference(rectangle(200, 150, left=200))
    plan = Plan(rooms=(Room(id="a", name="L", outline_px=outline),))
    lines = [line("4.00 x 3.00 m", (100.0, 200.0))]

    found = scaled(Lettered(plan=plan, labels=placed(labels_of(lines, words), plan)), PIXELS)

    assert found.plan.rooms[0].outline.area == pytest.approx(9.0, rel=0.01)


def test_bare_numbers_are_settled_by_the_other_sizes(line, words):
    plan = Plan(rooms=rooms((381, 305), (300, 244)))

    found = scaled_by_sizes(plan, ["126 x 100", "3.00 x 2.44 m"], line, words)

    assert found.plan.scale.metres_per_px == pytest.approx(0.01, rel=0.005)
    assert all(vote.agrees for vote in found.votes)


def test_when_nothing_is_printed_doors_are_a_guess_and_say_so():
    door = Opening(id="d", kind=OpeningKind.DOOR, start_px=(10.0, 0.0), end_px=(90.0, 0.0))
    plan = Plan(rooms=(Room(id="a", name="A", outline_px=rectangle(400, 300), openings=(door,)),))

    found = scaled(Lettered(plan=plan, labels=placed((), plan)), PIXELS)

    assert found.plan.scale.metres_per_px == pytest.approx(0.01)
    assert "guess" in found.plan.scale.basis


def test_with_neither_print_nor_doors_the_plan_stays_without_a_scale():
    plan = Plan(rooms=rooms((400, 300)))

    found = scaled(Lettered(plan=plan, labels=placed((), plan)), PIXELS)

    assert found.plan.scale is None
    assert found.votes == ()
