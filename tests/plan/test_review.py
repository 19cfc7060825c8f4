"""What hangs on a doubt is our own rule; areas square the error of lengths by geometry."""

import pytest
from attrs import evolve

from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.review import review
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey

SOURCE = Source(file="plan.png", width_px=1000, height_px=800)


def plan(*, error=0.005, doubts=(), scaled=True, **confidence):
    """A hall of 20, a kitchen of 12 and a closet of 2 m²."""
    outlines = {"hall": rectangle(4, 5), "kitchen": rectangle(3, 4), "closet": rectangle(1, 2)}
    scale = Scale(metres_per_px=0.01, relative_error=error, basis="a bar")
    return Plan(
        storeys=(Storey(source=SOURCE, scale=scale if scaled else None),),
        rooms=tuple(
            Room(
                id=name,
                name=name.capitalize(),
                outline=outline if scaled else None,
                outline_px=outline,
                confidence=confidence.get(name, 0.95),
            )
            for name, outline in outlines.items()
        ),
        doubts=doubts,
    )


def outline_doubt(room, **facts):
    return Doubt(aspect=Aspect.OUTLINE, room=room, says=f"{room} is odd.", **facts)


def test_a_sure_plan_has_nothing_to_check():
    assert review(plan()) == ()


def test_a_weak_scale_comes_first():
    first, second = review(plan(error=0.15, kitchen=0.7))

    assert (first.room, first.at_stake) == (None, pytest.approx(0.3))
    assert first.says == "The scale is weak; every area may be off by 30%."
    assert second.room == "kitchen"


def test_without_a_scale_that_is_said_first_and_rooms_are_weighed_all_the_same():
    first, second, third = review(plan(scaled=False, hall=0.8, closet=0.5))

    assert (first.room, first.at_stake) == (None, 1.0)
    assert "not known" in first.says
    assert [second.room, third.room] == ["hall", "closet"]


def test_a_large_room_hardly_doubted_comes_before_a_small_one_in_deep_doubt():
    found = review(plan(hall=0.8, closet=0.3))

    assert [check.room for check in found] == ["hall", "closet"]
    assert [check.at_stake for check in found] == pytest.approx([0.2 * 20 / 34, 0.7 * 2 / 34])


def test_a_room_is_named_once_by_the_weightiest_doubt():
    doubts = (
        outline_doubt("kitchen", confidence=0.5),
        Doubt(aspect=Aspect.USE, room="kitchen", says="Its use is a guess.", confidence=0.5),
        outline_doubt("hall", confidence=0.5, relative_error=0.1),
    )

    found = review(plan(doubts=doubts))

    assert [(check.room, check.says) for check in found] == [
        ("kitchen", "kitchen is odd."),
        ("hall", "hall is odd."),
    ]
    assert found[1].at_stake == pytest.approx(0.1 * 20 / 34)


def test_an_unsure_opening_is_told_once_and_weighs_little():
    flat = plan()
    joined = {
        "hall": (
            Opening(id="a", kind=OpeningKind.PASSAGE, leads_to="kitchen", confidence=0.4),
            Opening(id="b", kind=OpeningKind.WINDOW, confidence=0.5),
        ),
        "kitchen": (Opening(id="c", kind=OpeningKind.PASSAGE, leads_to="hall", confidence=0.4),),
        "closet": (Opening(id="d", kind=OpeningKind.DOOR, confidence=0.9),),
    }
    rooms = tuple(evolve(room, openings=joined[room.id]) for room in flat.rooms)

    (check,) = review(evolve(flat, rooms=rooms))

    assert (check.room, check.aspect) == ("hall", Aspect.OPENINGS)
    assert check.says == "A passage of Hall was read with a confidence of 40%; it may be a door."
    assert check.at_stake == pytest.approx(0.6 * 0.2 * 20 / 34)


def test_a_doubt_of_no_room_weighs_as_a_middling_one():
    missing = Doubt(aspect=Aspect.OUTLINE, says="A study was not read.", confidence=0.5)

    (check,) = review(plan(doubts=(missing,)))

    assert (check.room, check.at_stake) == (None, pytest.approx(0.5 * 12 / 34))


def test_an_empty_plan_has_nothing_to_check():
    assert review(Plan()) == ()
