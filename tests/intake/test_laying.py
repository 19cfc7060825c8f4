"""Rooms that are said to be joined, and rooms added one by one."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import EstimatorError, QuantityError
from estimator.intake.typed import typed_into, typed_rooms
from estimator.plan.plan import Plan
from estimator.plan.room import Basis

FOOT = 0.3048  # exact: NIST Special Publication 811 (2008), appendix B

SIZES = {"kitchen": (3.6, 3.0), "bathroom": (2.4, 2.0), "corridor": (6.0, 1.5)}
MORE = {
    "kitchen": "kitchen",
    "hall": "corridor",
    "bedroom": "bedroom",
    "office": "office",
    "lobby": "lobby",
    "bath": "bathroom",
    "dining": "dining_room",
    "dining room": "dining_room",
}


def doors(plan):
    """Return kinds of openings by the names of the rooms on both sides."""
    names = {room.id: room.name for room in plan.rooms}
    return {
        (room.name, names[gap.leads_to], str(gap.kind))
        for room in plan.rooms
        for gap in room.openings
        if gap.leads_to
    }


def no_overlap(plan):
    pairs = itertools.combinations([room.outline for room in plan.rooms], 2)
    return all(one.intersection(other).area < 1e-9 for one, other in pairs)


def sides(room):
    left, top, right, bottom = room.outline.bounds
    return pytest.approx((right - left, bottom - top), abs=1e-9)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("dining 3x4 m, kitchen 3x3 m opens to dining", "passage"),
        ("dining 3x4 m, kitchen opens into the dining room 3x3 m", "passage"),
        ("dining 3x4 m, kitchen 3x3 m open to dining", "passage"),
        ("dining 3x4 m, kitchen 3x3 m, kitchen opens to dining", "passage"),
        ("kitchen 3x3 m opens to dining, dining room 3x4 m", "passage"),
        ("kitchen 3x3 m\ndining 3x4 m off the kitchen", "door"),
        ("kitchen 3x3 m; dining 3x4 m; dining leads to the kitchen", "door"),
        ("kitchen 3x3 m, dining 3x4 m, off the kitchen", "door"),
        ("kitchen 3x3 m, dining off kitchen, 3x4 m", "door"),
    ],
)
def test_rooms_are_joined_as_it_is_said(text, kind):
    plan = typed_rooms(text, MORE)
    names = sorted(room.name for room in plan.rooms)
    assert len(names) == 2
    assert doors(plan) == {(*names, kind), (*reversed(names), kind)}
    assert no_overlap(plan)
    assert plan.doubts == ()


def test_rooms_next_to_each_other_touch_and_share_no_door():
    plan = typed_rooms("office 3x4 m, lobby 5x5 m, kitchen 3x3 m next to the office", MORE)
    office, _, kitchen = plan.rooms
    assert office.outline.intersection(kitchen.outline).length >= 0.5
    assert all(room.openings == () for room in plan.rooms)


def test_a_flat_is_laid_around_its_hall():
    plan = typed_rooms(
        "Hall 6 x 1.5 m, 2 bedrooms 3 x 4 m off the hall, bath 2 x 2 m off hall, kitchen 3 x 3 m "
        "off the hall opens to dining, dining 4 x 3 m with 2 windows",
        MORE,
    )
    assert no_overlap(plan)
    assert {other for name, other, _ in doors(plan) if name == "Hall"} == {
        "Bedroom 1",
        "Bedroom 2",
        "Bath",
        "Kitchen",
    }
    assert ("Kitchen", "Dining", "passage") in doors(plan)


def test_a_room_is_joined_with_several_at_once():
    plan = typed_rooms("kitchen 3x3 m, office 3x3 m, hall 6x2 m off kitchen and office", MORE)
    assert {other for name, other, _ in doors(plan) if name == "Hall"} == {"Kitchen", "Office"}


def test_a_numbered_room_is_meant_by_its_number():
    plan = typed_rooms("2 bedrooms 3x4 m, bath off bedroom 2 2x2 m", MORE)
    assert ("Bath", "Bedroom 2", "door") in doors(plan)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("kitchen 3x3 m off the ballroom", "no room is called “ballroom”"),
        ("kitchen 3x3 m opens to", "does not say which room"),
        ("off the hall", "no room stands before it"),
        ("kitchen 3x3 m off the kitchen", "no room is called “kitchen”"),
    ],
)
def test_a_joint_with_nothing_is_refused_naming_the_piece(text, problem):
    with pytest.raises(QuantityError, match=problem):
        typed_rooms(text, MORE)


def test_too_many_joints_are_refused_at_once():
    with pytest.raises(QuantityError, match="join at most"):
        typed_rooms("hall 6x2 m\n" + "office 3x3 m off the hall\n" * 1000, MORE)


def test_a_room_without_a_size_is_as_large_as_usual_and_said_so():
    plan = typed_rooms("kitchen, hall 6x2 m, bath off the hall", MORE, SIZES)
    kitchen, _, bath = plan.rooms
    assert sides(kitchen) == (3.6, 3.0)
    assert sides(bath) == (2.4, 2.0)
    assert kitchen.basis is Basis.ASSUMED
    assert [doubt.room for doubt in plan.doubts] == [kitchen.id, bath.id]
    assert "3.6 by 3 m, as usual" in plan.doubts[0].says
    assert all(doubt.relative_error > 0 for doubt in plan.doubts)


def test_rooms_are_added_one_by_one_in_the_units_of_the_house():
    plan = Plan()
    for words in ("hall 6x2", "bath off the hall", "kitchen 3x3.5", "kitchen 3x3", "2.5x3 office"):
        plan = typed_into(plan, words, MORE, SIZES, unit="m")
    assert [room.name for room in plan.rooms] == ["Hall", "Bath", "Kitchen", "Kitchen 2", "Office"]
    assert sides(plan.rooms[0]) == (6.0, 2.0)
    assert sides(plan.rooms[4]) == (2.5, 3.0)
    assert no_overlap(plan)
    assert [doubt.room for doubt in plan.doubts] == [plan.rooms[1].id]
    feet = typed_into(Plan(), "kitchen 12x14", MORE, SIZES, unit="ft")
    assert sides(feet.rooms[0]) == (12 * FOOT, 14 * FOOT)


def test_words_may_join_rooms_that_are_there_and_raise_their_ceilings():
    plan = typed_rooms("kitchen 3x3 m, dining 3x4 m", MORE)
    plan = typed_into(plan, "kitchen opens to dining", MORE, SIZES, unit="m")
    assert doors(plan) == {("Kitchen", "Dining", "passage"), ("Dining", "Kitchen", "passage")}
    plan = typed_into(plan, "ceilings 3", MORE, SIZES, unit="m")
    assert [room.ceiling_height for room in plan.rooms] == [3.0, 3.0]
    own = typed_into(plan, "hall 6x2 ceiling 2.4", MORE, SIZES, unit="m")
    assert [room.ceiling_height for room in own.rooms] == [3.0, 3.0, 2.4]


@given(st.text(alphabet="kitchen off hall opens to 0123456789x., m and\n", max_size=50))
def test_any_words_added_are_a_plan_or_a_sentence(text):
    plan = typed_rooms("kitchen 3x3 m, hall 6x2 m", MORE)
    try:
        after = typed_into(plan, text, MORE, SIZES, unit="m")
    except EstimatorError as error:
        after, sentence = plan, str(error)
        assert sentence.endswith(".")
    assert no_overlap(after)
