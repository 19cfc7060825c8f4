import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point

from estimator.errors import EstimatorError, MissingUnit, QuantityError
from estimator.intake.typed import LONGEST_TEXT, typed_rooms
from estimator.plan.doubt import Aspect
from estimator.plan.opening import OpeningKind
from estimator.plan.room import Basis

FOOT = 0.3048  # exact: NIST Special Publication 811 (2008), appendix B

USES = {
    "kitchen": "kitchen",
    "hall": "corridor",
    "classroom": "classroom",
    "bedroom": "bedroom",
    "office": "office",
    "study": "office",
    "bathroom": "bathroom",
    "meeting room": "meeting-room",
    "lobby": "lobby",
}


def sides(room):
    left, top, right, bottom = room.outline.bounds
    return pytest.approx((right - left, bottom - top), abs=1e-9)


def only_room(text):
    (room,) = typed_rooms(text, USES).rooms
    return room


def test_the_sentence_of_the_readme_is_read():
    plan = typed_rooms(
        "Kitchen 12' x 14', hall 6 x 2.4 m, 2 classrooms 9 by 7 m, ceilings 10 ft", USES
    )
    assert [room.name for room in plan.rooms] == ["Kitchen", "Hall", "Classroom 1", "Classroom 2"]
    assert [room.use for room in plan.rooms] == ["kitchen", "corridor", "classroom", "classroom"]
    assert sides(plan.rooms[0]) == (12 * FOOT, 14 * FOOT)
    assert sides(plan.rooms[1]) == (6.0, 2.4)
    assert sides(plan.rooms[3]) == (9.0, 7.0)
    assert [room.ceiling_height for room in plan.rooms] == pytest.approx([10 * FOOT] * 4)
    assert {room.basis for room in plan.rooms} == {Basis.MEASURED}
    assert plan.doubts == ()


@pytest.mark.parametrize(
    "text",
    [
        "kitchen 12 x 14 ft",
        "kitchen 12' x 14'",
        "kitchen 12' x 14",
        "kitchen 12ftx14ft",
        "Kitchen: 12 by 14 feet",
        "Kitchen - 12 × 14 ft",
        "Kitchen (12 * 14 ft)",
        "kitchen, 12 x 14 ft",
        "12x14 ft kitchen",
        "a kitchen of 12-foot by 14-foot",
        "kitchen\t12\tx\t14\tft",
        "Kitchen 12 ft wide by 14 ft long",
        "kitchen twelve by fourteen feet",
        "Kitchen 12'-0\" x 14'-0\"",
        "kitchen 12’ x 14’",
        "kitchen 144 x 168 inches",
    ],
)
def test_one_kitchen_is_the_same_in_many_spellings(text):
    room = only_room(text)
    assert room.name == "Kitchen"
    assert sides(room) == (12 * FOOT, 14 * FOOT)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("two bedrooms 3x4m", ["Bedroom 1", "Bedroom 2"]),
        ("3 offices each 10 by 12 ft", ["Office 1", "Office 2", "Office 3"]),
        ("2 x bedrooms 3 x 4 m", ["Bedroom 1", "Bedroom 2"]),
        ("2 lobbies 3 x 4 m", ["Lobby 1", "Lobby 2"]),
        ("Bedroom 3x4m, bedroom 3,5x4,2 m", ["Bedroom 1", "Bedroom 2"]),
        ("Office 1 3x4 m, Office 2: 3 x 4m", ["Office 1", "Office 2"]),
        ("2 offices 3x4m; office 1 3x4m", ["Office 2", "Office 3", "Office 1"]),
        ("Kitchen 3 x 4 m and hall 6 x 2 m", ["Kitchen", "Hall"]),
        ("Kitchen 3 by 4 metres. Hall 6 by 2 metres.", ["Kitchen", "Hall"]),
        ("kitchen 3x4m\nhall 6x2m;study 2x3m", ["Kitchen", "Hall", "Study"]),
        ("3 x 4 m", ["Room"]),
        ("Room 101 5 x 6 m", ["Room 101"]),
    ],
)
def test_counts_and_names_are_read(text, names):
    uses = USES | {"room": "room"}
    assert sorted(room.name.casefold() for room in typed_rooms(text, uses).rooms) == sorted(
        name.casefold() for name in names
    )


def test_a_name_keeps_its_apostrophe_and_is_used_as_its_last_word_says():
    room = only_room("Mrs Hall's study 3 x 4 m")
    assert (room.name, room.use) == ("Mrs Hall's study", "office")


def test_the_longest_phrase_decides_the_use():
    assert only_room("Large meeting room 3 x 4 m").use == "meeting-room"


def test_an_unknown_word_is_an_ordinary_room_and_said_so():
    plan = typed_rooms("Zendo 3 x 4 m", USES)
    assert plan.rooms[0].use == "room"
    (doubt,) = plan.doubts
    assert (doubt.aspect, doubt.room) == (Aspect.USE, "room-1")
    assert "Zendo" in doubt.says


def test_inches_behind_a_comma_belong_to_the_feet():
    assert sides(only_room("Kitchen 12 feet, 6 inches x 14 feet, 3 inches")) == (
        12.5 * FOOT,
        14.25 * FOOT,
    )


def test_a_decimal_comma_is_no_separator():
    assert sides(only_room("kitchen 3,5 x 4,25 m")) == (3.5, 4.25)


def test_a_unit_written_once_holds_for_all_sides():
    room = only_room("Kitchen 3 x 4 x 2.7 m")
    assert sides(room) == (3.0, 4.0)
    assert room.ceiling_height == 2.7


def test_sides_in_two_units_keep_theirs():
    assert sides(only_room("Kitchen 3 m x 14 ft")) == (3.0, 14 * FOOT)


def test_a_missing_unit_is_taken_from_the_rest_with_a_doubt():
    plan = typed_rooms("kitchen 12 x 14, office 10' x 10', hall 10-6 x 5-0", USES)
    assert sides(plan.rooms[0]) == (12 * FOOT, 14 * FOOT)
    assert sides(plan.rooms[2]) == (10.5 * FOOT, 5 * FOOT)
    assert [doubt.room for doubt in plan.doubts] == ["room-1", "room-3"]
    assert "feet are taken" in plan.doubts[0].says


def test_the_unit_of_the_ceilings_serves_when_no_side_has_one():
    plan = typed_rooms("kitchen 12 x 14, ceilings 10 ft", USES)
    assert sides(plan.rooms[0]) == (12 * FOOT, 14 * FOOT)
    assert len(plan.doubts) == 1


@pytest.mark.parametrize(
    "text",
    ["kitchen 12 x 14", "kitchen 12 x 14, hall 6x2", "hall 6x2 m, study 3'x4', kitchen 12 x 14"],
)
def test_a_unit_that_is_not_clear_is_asked_for_naming_the_room(text):
    with pytest.raises(MissingUnit, match=r"kitchen 12 x 14.*write m or ft"):
        typed_rooms(text, USES)


def test_an_area_alone_becomes_a_room_of_four_to_three_with_a_doubt():
    plan = typed_rooms("office 20 m², hall 153 sq ft", USES)
    assert plan.rooms[0].outline.area == pytest.approx(20.0)
    assert plan.rooms[1].outline.area == pytest.approx(153 * FOOT**2)
    left, top, right, bottom = plan.rooms[0].outline.bounds
    assert (right - left) / (bottom - top) == pytest.approx(4 / 3)
    assert plan.rooms[0].basis is Basis.ASSUMED
    assert [doubt.aspect for doubt in plan.doubts] == [Aspect.OUTLINE, Aspect.OUTLINE]


@pytest.mark.parametrize(
    "text",
    [
        "kitchen 3x4 m, hall 6x2 m, ceilings 2.7 m",
        "ceilings 2.7 m; kitchen 3x4 m; hall 6x2 m",
        "kitchen 3x4 m\nhall 6x2 m\nall ceilings 2.7",
        "kitchen 3x4 m, hall 6x2 m, 2.7 m high throughout",
        "kitchen 3x4 m, hall 6x2 m, ceiling height is 2.7 m everywhere",
        "2.7 m ceilings, kitchen 3x4 m, hall 6x2 m",
        "kitchen 3x4 m h 2.7 m, hall 6x2 m h=2.7m",
        "kitchen 3x4 m, h 2.7 m\nhall 6x2 m, ceiling 2.7",
    ],
)
def test_heights_are_said_of_all_rooms_or_of_each(text):
    plan = typed_rooms(text, USES)
    assert [room.ceiling_height for room in plan.rooms] == [2.7, 2.7]
    assert plan.doubts == ()


def test_a_height_behind_one_room_is_its_own():
    plan = typed_rooms("two bedrooms 3x4m; kitchen 12x14 ft ceiling 9 ft", USES)
    assert [room.ceiling_height for room in plan.rooms] == [None, None, pytest.approx(9 * FOOT)]


def test_one_ceiling_said_among_several_rooms_is_taken_for_all_with_a_doubt():
    plan = typed_rooms("Kitchen 3 x 4 m, ceiling 9 ft, hall 6 x 2 m", USES)
    assert [room.ceiling_height for room in plan.rooms] == pytest.approx([9 * FOOT] * 2)
    assert [doubt.aspect for doubt in plan.doubts] == [Aspect.HEIGHT]


def test_doors_and_windows_stand_on_the_walls_of_their_room():
    plan = typed_rooms("kitchen 3x4 m, 2 doors, 1 window\n2 offices 3x4 m with 1 door", USES)
    kinds = [[opening.kind for opening in room.openings] for room in plan.rooms]
    door, window = OpeningKind.DOOR, OpeningKind.WINDOW
    assert kinds == [[door, door, window], [door], [door]]
    for room in plan.rooms:
        edge = room.outline.exterior
        for opening in room.openings:
            assert edge.distance(Point(opening.start)) < 1e-9
            assert edge.distance(Point(opening.end)) < 1e-9
            assert opening.width == pytest.approx(0.9 if opening.kind is door else 1.2)
    assert {doubt.aspect for doubt in plan.doubts} == {Aspect.OPENINGS}


def test_more_doors_than_the_walls_hold_are_refused():
    with pytest.raises(QuantityError, match="do not fit"):
        typed_rooms("kitchen 3x4 m, 200 doors", USES)


def test_words_that_mean_nothing_are_said_to_be_left_out():
    plan = typed_rooms("Kitchen 3 x 4 m upstairs at the back", USES)
    (doubt,) = plan.doubts
    assert doubt.aspect is Aspect.OTHER
    assert "upstairs at the back" in doubt.says


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "no room with a size"),
        (" \n ;;,,", "no room with a size"),
        ("ceilings 10 ft", "no room with a size"),
        ("hello", "“hello”: it has no size"),
        ("kitchen 3x4 m, pantry", "“pantry”: it has no size"),
        ("hall 6x2 m, kitchen 0 x 4 m", "“kitchen 0 x 4 m”: a side of 0 m"),
        ("kitchen -3 x 4 m", "cannot be negative"),
        ("kitchen 3 x -4 m", "cannot be negative"),
        ("kitchen 3 x 4 m, ceilings -2 m", "cannot be negative"),
        ("kitchen 1000 x 1000 m", "a side of 1000 m"),
        ("kitchen 12” x 14”", "a side of 0.3"),
        ("kitchen 3 x 4 m, ceiling 0 m", "a ceiling height of 0 m"),
        ("kitchen 3 x 4 m, ceiling 300 m", "a ceiling height of 300 m"),
        ("kitchen 3 x", "one side is missing"),
        ("kitchen 3 m", "one side"),
        ("kitchen x 4 m", "one side"),
        ("kitchen 3x4x5x6 m", "more than three"),
        ("kitchen 3x4 m 12x14 ft", "two rooms"),
        ("kitchen 3x4 ft 6x9 ft", "two rooms"),
        ("kitchen 3x4 m hall 5x6 m", "two sizes"),
        ("kitchen 3x4x2 m ceiling 3 m", "two heights"),
        ("ceilings 10 ft, ceilings 9 ft, kitchen 3x4m", "another height"),
        ("1.5 bedrooms 3x4 m", "whole number"),
        ("0 bedrooms 3x4 m", "whole number"),
        ("9999999 bedrooms 3x4 m", "9,999,999 rooms"),
        ("one hundred bedrooms 3x4 m", "digits"),
        ("twenty-two bedrooms 3x4 m", "digits"),
        ("2 doors", "no room stands before it"),
        ("kitchen 3.4.5 x 4 m", "no number"),
        ("kitchen 8-10 x 9 m", "range"),
        ("word " * 40 + "3 x 4 m", "so long a name"),
    ],
)
def test_what_is_no_room_is_refused_naming_the_piece(text, problem):
    with pytest.raises(QuantityError, match=problem) as caught:
        typed_rooms(text, USES)
    assert len(str(caught.value)) < 300


def test_a_megabyte_of_text_is_refused_at_once():
    with pytest.raises(QuantityError, match="1,000,000 characters"):
        typed_rooms("x" * 1_000_000, USES)


@pytest.mark.parametrize(
    "unit",
    ["1 x ", "1-", "the ", "is ", "at ", "3' ", "'", '"', "a'", "1/2 ", "1,", "½", "sq ", "- ",
     "and ", "1 door ", "high ", "3 x 4 m and ", "\n", "(", "9", "1.", "x", "é"],
)  # fmt: skip
def test_long_monotonous_text_is_soon_refused(unit):
    with pytest.raises(EstimatorError):
        typed_rooms("kitchen " + unit * (LONGEST_TEXT // len(unit) - 10), USES)


def test_a_thousand_rooms_are_read():
    plan = typed_rooms("\n".join(f"Office {n}: 3 x 4 m" for n in range(1000)), USES)
    assert len(plan.rooms) == 1000
    assert sum(room.outline.area for room in plan.rooms) == pytest.approx(12_000)


@given(st.lists(st.tuples(st.integers(50, 2000), st.integers(50, 2000)), min_size=1, max_size=8))
def test_rooms_keep_their_sizes_and_never_overlap(sizes):
    text = ", ".join(f"office {width} x {depth} cm" for width, depth in sizes)
    rooms = typed_rooms(text, USES).rooms
    for room, (width, depth) in zip(rooms, sizes, strict=True):
        assert room.outline.area == pytest.approx(width * depth / 10_000)
    for one, other in itertools.combinations(rooms, 2):
        assert one.outline.intersection(other.outline).area < 1e-9
        assert not one.outline.overlaps(other.outline)
    for one, following in itertools.pairwise(rooms):
        starts_a_row = following.outline.bounds[0] == 0
        assert starts_a_row or following.outline.intersection(one.outline).length > 0.4


@given(st.text(alphabet="kitchen 0123456789x.,;'\"-/½m ftby\n", max_size=60))
def test_any_text_is_a_plan_or_a_sentence(text):
    try:
        plan = typed_rooms(text, USES)
    except EstimatorError as error:
        sentence = str(error)
        assert sentence.endswith(".")
    else:
        assert plan.is_scaled
