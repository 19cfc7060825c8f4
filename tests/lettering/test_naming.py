import pytest

from estimator.lettering.labels import labels_of
from estimator.lettering.naming import named, placed
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room


@pytest.fixture
def plan():
    """Two rooms side by side, 200 and 300 pixels wide."""
    return Plan(
        rooms=(
            Room(id="a", name="Room 1", outline_px=rectangle(200, 300)),
            Room(id="b", name="Room 2", outline_px=rectangle(300, 300, left=210)),
        ),
        doubts=(
            Doubt(aspect=Aspect.OUTLINE, room="b", says="Room 2 may be two rooms.", confidence=0.5),
        ),
    )


def lettered(plan, lines, words):
    return named(plan, placed(labels_of(lines, words), plan), words)


def test_rooms_are_called_and_used_as_they_are_lettered(plan, line, words):
    found = lettered(plan, [line("KITCHEN", (100, 100)), line("Salon", (350, 100))], words)

    assert [(room.name, room.use) for room in found.rooms] == [
        ("Kitchen", "kitchen"),
        ("Salon", "living_room"),
    ]


def test_a_name_on_two_lines_is_one(plan, line, words):
    found = lettered(
        plan,
        [
            line("MASTER", (100, 100)),
            line("BEDROOM", (100, 113)),
            line("KITCHEN/", (350, 100)),
            line("DINER", (350, 113)),
        ],
        words,
    )

    assert [room.name for room in found.rooms] == ["Master Bedroom", "Kitchen/Diner"]


def test_namesakes_are_numbered(plan, line, words):
    found = lettered(plan, [line("Bedroom", (100, 100)), line("Bedroom", (350, 100))], words)

    assert [room.name for room in found.rooms] == ["Bedroom 1", "Bedroom 2"]


def test_two_names_in_one_room_are_a_doubt_and_the_larger_size_leads(plan, line, words):
    lines = [
        line("Kitchen", (350, 50)),
        line("2.0 x 3.0 m", (350, 62)),
        line("Living Room", (350, 200)),
        line("5.0 x 4.0 m", (350, 212)),
    ]

    found = lettered(plan, lines, words)

    assert found.rooms[1].name == "Living Room / Kitchen"
    assert found.rooms[1].use == "living_room"
    assert any("it may be 2" in doubt.says for doubt in found.doubts)


def test_a_name_of_unknown_meaning_is_kept_and_doubted(plan, line, words):
    found = lettered(plan, [line("Zeppelin", (100, 100))], words)

    assert (found.rooms[0].name, found.rooms[0].use) == ("Zeppelin", "room")
    assert [doubt.aspect for doubt in found.doubts if doubt.room == "a"] == [Aspect.USE]


def test_words_beside_a_known_name_are_no_names(plan, line, words):
    found = lettered(plan, [line("Zeppelin", (100, 200)), line("Hall", (100, 100))], words)

    assert found.rooms[0].name == "Hall"


def test_a_name_where_no_room_was_read_is_a_doubt(plan, line, words):
    between = Plan(
        rooms=(plan.rooms[0], Room(id="b", name="", outline_px=rectangle(100, 300, left=500)))
    )

    found = lettered(between, [line("Study", (350, 150)), line("Larkfield", (350, 100))], words)

    assert [doubt.says for doubt in found.doubts] == [
        "A room called Study was printed where none was read."
    ]


def test_doubts_call_a_room_by_its_new_name(plan, line, words):
    found = lettered(plan, [line("Hall", (350, 100))], words)

    assert found.doubts[0].says == "Hall may be two rooms."


def test_a_room_open_to_a_balcony_is_used_indoors(plan, line, words):
    lines = [line("Balcony", (350, 50)), line("Living Room", (350, 200))]

    assert lettered(plan, lines, words).rooms[1].use == "living_room"


def test_a_reception_beside_a_bedroom_is_a_living_room(plan, line, words):
    lines = [line("Reception", (100, 100)), line("Bedroom", (350, 100))]

    assert lettered(plan, lines, words).rooms[0].use == "living_room"
