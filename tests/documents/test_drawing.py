import re
from xml.etree import ElementTree

import pytest
from attrs import evolve

from estimator.documents.colouring import ColourBy
from estimator.documents.drawing import plan_scene, plan_svg, sides_words
from estimator.documents.palette import DOUBT, USE_TINTS, strength_colours
from estimator.documents.scene import Area, Stroke, Words
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Storey
from estimator.quantities import Units

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = ["<script>alert(1)</script>", "a\"b'c & d", "\x00\x1b", "厨房 😀", "\ud800", "x" * 400]


def _texts(drawn):
    return [element.text for element in ElementTree.fromstring(drawn).iter(f"{SVG}text")]


def _scene(plan, quote=None, **settings):
    return plan_scene(plan, quote, Units.METRIC, 0, width=500, height=300, text=9, **settings)


def _without_scale(plan):
    return evolve(
        plan,
        rooms=tuple(
            evolve(
                room,
                outline=None,
                openings=tuple(evolve(o, start=None, end=None) for o in room.openings),
            )
            for room in plan.rooms
        ),
    )


def test_every_room_is_named_with_its_area(plan, quote):
    texts = _texts(plan_svg(plan, quote, Units.METRIC))

    assert {room.name for room in plan.rooms} <= set(texts)
    assert {"21.6 m²", "14.4 m²", "3.2 m²", "16 m²", "4.8 m²", "9.6 m²"} <= set(texts)
    assert "5.4 × 4 m" in texts


def test_sizes_follow_the_units(plan, quote):
    texts = _texts(plan_svg(plan, quote, Units.US))

    # 21.6 m² ÷ 0.09290304 m²/ft² = 232.5 ft² (NIST SP 811, exact foot).
    assert "233 ft²" in texts
    assert not any("m²" in text for text in texts)


def test_rooms_are_coloured_by_the_strength_they_take(plan, quote):
    colours = strength_colours([0.2, 0.5, 1.0])

    fills = [mark.fill for mark in _scene(plan, quote).marks if isinstance(mark, Area)]

    # The kitchen food, two rooms clinical, three general; each once more in the legend.
    assert [fills.count(colours[strength]) for strength in (0.2, 0.5, 1.0)] == [2, 4, 3]


def test_without_a_quote_rooms_are_coloured_by_use(plan):
    fills = {mark.fill for mark in _scene(plan).marks if isinstance(mark, Area)}

    assert set(USE_TINTS[: len(plan.rooms)]) <= fills


def test_doubtful_rooms_are_marked(plan):
    dashed = [mark for mark in _scene(plan).marks if isinstance(mark, Stroke) and mark.dash]
    sure = evolve(plan, rooms=tuple(evolve(room, confidence=1.0) for room in plan.rooms))

    assert {mark.colour for mark in dashed} == {DOUBT}
    assert not [mark for mark in _scene(sure).marks if isinstance(mark, Stroke) and mark.dash]


def test_a_plan_without_scale_is_drawn_in_proportion_and_without_sizes(plan):
    texts = _texts(plan_svg(_without_scale(plan), None, Units.METRIC, by=ColourBy.CONFIDENCE))

    assert "Waiting room" in texts
    assert not [text for text in texts if re.search(r"\d ?m", text)]


def test_drawing_in_metres_and_in_pixels_is_alike(plan):
    sized, unsized = _scene(plan), _scene(_without_scale(plan))
    places = [
        {mark.text: (mark.x / scene.width) for mark in scene.marks if isinstance(mark, Words)}
        for scene in (sized, unsized)
    ]

    assert places[0]["Corridor"] == pytest.approx(places[1]["Corridor"], abs=0.02)


def test_the_scale_bar_is_as_long_as_it_says(plan):
    scene = _scene(plan)
    legend = next(mark for mark in scene.marks if isinstance(mark, Words) and mark.text == "2 m")
    outline = max(
        (mark for mark in scene.marks if isinstance(mark, Area)),
        key=lambda mark: max(x for x, _ in mark.rings[0]) - min(x for x, _ in mark.rings[0]),
    )
    bar = [
        ring
        for mark in scene.marks
        if isinstance(mark, Area)
        for ring in mark.rings
        if abs(max(y for _, y in ring) - legend.y) < 2 and max(x for x, _ in ring) < legend.x
    ]
    length = max(x for ring in bar for x, _ in ring) - min(x for ring in bar for x, _ in ring)
    across = max(x for x, _ in outline.rings[0]) - min(x for x, _ in outline.rings[0])

    # The rooms are 10 m across, with a wall of 0.15 m on both sides.
    assert length / across == pytest.approx(2 / 10.3, rel=1e-6)


@pytest.mark.parametrize("name", HOSTILE)
def test_any_name_gives_well_formed_svg_without_markup_of_its_own(plan, quote, name):
    rooms = (evolve(plan.rooms[0], name=name), *plan.rooms[1:])
    drawn = plan_svg(evolve(plan, rooms=rooms, title=name), quote, Units.METRIC)

    tags = {element.tag for element in ElementTree.fromstring(drawn).iter()}
    assert tags <= {f"{SVG}{tag}" for tag in ("svg", "title", "path", "text")}


def test_rooms_too_small_for_their_name_are_numbered_and_listed():
    rooms = tuple(
        Room(id=f"r{at}", name=f"Archive of the year {1990 + at}", outline=rectangle(1, 9, left=at))
        for at in range(40)
    )
    texts = [mark.text for mark in _scene(Plan(rooms=rooms)).marks if isinstance(mark, Words)]

    assert {"1", "40"} <= set(texts)
    assert "40  Archive of the year 2029, 9 m²" in texts


def test_a_door_between_two_rooms_swings_once(plan):
    rooms = tuple(room for room in plan.rooms if room.id in {"exam", "hall"})
    arcs = [
        mark
        for mark in _scene(evolve(plan, rooms=rooms, doubts=())).marks
        if isinstance(mark, Stroke) and len(mark.points) == 13
    ]

    # The one between them, and the front door.
    assert len(arcs) == 2


def test_an_empty_storey_says_so(plan):
    twice = evolve(plan, storeys=(*plan.storeys, Storey(number=1, name="Attic")))

    assert _texts(plan_svg(twice, None, Units.METRIC, storey=1)) == ["No rooms here yet"]


def test_sides_say_the_unit_once():
    assert sides_words(3.6, 2.4, Units.METRIC) == "3.6 × 2.4 m"
    assert sides_words(3.6576, 3.048, Units.US) == "12' 0\" × 10' 0\""
