import pytest

from estimator.errors import EstimatorError
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey
from estimator.quantities import Units
from estimator.web.table.commands import LONGEST_NAME, corrected
from estimator.web.table.said import Said
from estimator.workflow.measuring import standard_book

BOOK = standard_book().surfaces
PAIR = Plan(
    rooms=(
        Room(id="a", name="Hall", outline=rectangle(3, 4)),
        Room(id="b", name="Office", use="office", outline=rectangle(2, 4, left=3)),
    )
)
SOURCE = Source(file="a.png", width_px=600, height_px=500)


def told(plan, units=Units.METRIC, **command):
    return corrected(plan, Said(command={"storey": 0} | command, units=units, book=BOOK))


def areas(plan):
    return [round(room.outline.area, 6) for room in plan.rooms]


@pytest.mark.parametrize(
    ("command", "wanted"),
    [
        ({"do": "add-room", "corners": [[9, 0], [11, 0], [11, 2], [9, 2]]}, [12, 8, 4]),
        ({"do": "add-sides", "sides": "2 x 3", "at": [9, 0]}, [12, 8, 6]),
        ({"do": "move-wall", "room": "a", "wall": [[3, 0], [3, 4]], "by": [1, 0]}, [16, 4]),
        (
            {
                "do": "move-wall",
                "room": "a",
                "wall": [[3, 0], [3, 4]],
                "by": [-1, 0],
                "alone": True,
            },
            [8, 8],
        ),
        ({"do": "move-corner", "room": "a", "corner": [0, 0], "to": [-1, -1]}, [20, 8]),
        (
            {"do": "move-corner", "room": "a", "corner": [0, 0], "to": [-1, 0], "free": True},
            [14, 8],
        ),
        ({"do": "add-corner", "room": "a", "at": [0, 2]}, [12, 8]),
        ({"do": "remove-corner", "room": "a", "corner": [0, 0]}, [6, 8]),
        ({"do": "move-room", "room": "b", "by": [1, 0]}, [12, 8]),
        ({"do": "remove-room", "room": "a"}, [8]),
        ({"do": "cut", "from": [0, 1], "to": [3, 1]}, [9, 3, 8]),
        ({"do": "join", "rooms": ["a", "b"]}, [20]),
        ({"do": "use", "room": "a", "use": "kitchen"}, [12, 8]),
    ],
)
def test_a_command_corrects_the_plan(command, wanted):
    assert areas(told(PAIR, **command)) == wanted


def test_typed_sides_go_towards_the_pointer_and_are_in_the_units_shown():
    after = told(PAIR, Units.US, do="add-sides", sides="10 x 10'", at=[0, 0], towards=[-1.0, -1.0])

    assert after.rooms[-1].outline.bounds == pytest.approx((-3.048, -3.048, 0, 0))


def test_a_name_tells_the_use_of_a_room_that_has_none():
    after = told(PAIR, do="rename", room="a", name="  Our   kitchen ")

    assert (after.rooms[0].name, after.rooms[0].use) == ("Our kitchen", "kitchen")
    assert told(PAIR, do="rename", room="b", name="Kitchen").rooms[1].use == "office"


def test_openings_and_furniture_are_put_in_changed_and_taken_out():
    plan = told(PAIR, do="add-opening", kind="door", at=[3, 2])
    door = plan.rooms[0].openings[0].id
    plan = told(plan, do="resize-opening", room="a", opening=door, width="1.1")
    door = plan.rooms[0].openings[0].id
    plan = told(plan, do="move-opening", room="a", opening=door, to=[3, 3])
    plan = told(plan, do="add-piece", kind="desk", at=[1, 1], degrees=0)
    plan = told(plan, do="turn-piece", room="a", piece=0, degrees=90)
    plan = told(plan, do="move-piece", room="a", piece=0, by=[0.5, 0.5])
    plan = told(plan, do="resize-piece", room="a", piece=0, sides="1.2 x 0.6")

    assert [room.openings[0].width for room in plan.rooms] == pytest.approx([1.1, 1.1])
    assert plan.rooms[0].furnishings[0].footprint.area == pytest.approx(0.72)
    door = plan.rooms[0].openings[0].id
    plan = told(plan, do="remove-opening", room="a", opening=door)
    plan = told(plan, do="remove-piece", room="a", piece=0)
    assert all(not room.openings and not room.furnishings for room in plan.rooms)


def test_a_line_over_a_known_length_sizes_the_picture():
    rooms = (Room(id="a", name="Hall", outline_px=rectangle(300, 400)),)
    plan = Plan(storeys=(Storey(source=SOURCE),), rooms=rooms)
    after = told(plan, **{"do": "scale", "from": [0, 0], "to": [300, 0], "length": "3 m"})

    assert areas(after) == [12]
    assert isinstance(after.scale, Scale)


@pytest.mark.parametrize(
    "command",
    [
        {"do": "conjure"},
        {"do": None},
        {"do": "add-room"},
        {"do": "add-room", "corners": "many"},
        {"do": "add-room", "corners": [[0, 0], [1, "x"], [2, 2]]},
        {"do": "add-room", "corners": [[0, 0], [1e9, 0], [2, 2]]},
        {"do": "add-room", "corners": [[float("nan"), 0], [1, 0], [2, 2]]},
        {"do": "add-room", "corners": [[0, 0]] * 30_000},
        {"do": "add-room", "corners": [[0, 0, 0], [1, 1, 1]]},
        {"do": "add-room", "corners": [[9, 9], [9, 9], [9, 9]]},
        {"do": "add-sides", "sides": "big", "at": [0, 0]},
        {"do": "add-sides", "sides": "4 x 3 " * 200_000, "at": [0, 0]},
        {"do": "add-sides", "sides": "4000 x 3", "at": [0, 0]},
        {"do": "move-wall", "room": "a", "wall": [[3, 0]], "by": [1, 0]},
        {"do": "move-wall", "room": "z", "wall": [[3, 0], [3, 4]], "by": [1, 0]},
        {"do": "move-wall", "room": "a", "wall": [[3, 0], [3, 4]], "by": [-9, 0]},
        {"do": "rename", "room": "a", "name": "x" * 1_000_000},
        {"do": "use", "room": "a", "use": "dungeon"},
        {"do": "cut", "from": [90, 0], "to": [99, 0]},
        {"do": "join", "rooms": ["a"]},
        {"do": "join", "rooms": "a"},
        {"do": "add-opening", "kind": "hatch", "at": [3, 2]},
        {"do": "add-opening", "kind": "door", "at": [30, 20]},
        {"do": "resize-opening", "room": "a", "opening": "none", "width": "1 m"},
        {"do": "add-piece", "kind": "throne", "at": [1, 1], "degrees": 0},
        {"do": "move-piece", "room": "a", "piece": 7, "by": [1, 1]},
        {"do": "move-piece", "room": "a", "piece": 0.5, "by": [1, 1]},
        {"do": "scale", "from": [0, 0], "to": [1, 0], "length": "3 m"},
        {"do": "remove-room", "room": "a", "storey": 4},
        {"do": "remove-room", "room": "a", "storey": "up"},
    ],
)
def test_what_makes_no_sense_is_refused_in_one_short_sentence(command):
    with pytest.raises(EstimatorError) as refused:
        told(PAIR, **command)
    says = str(refused.value)
    assert says.endswith(".")
    assert len(says) < 250


def test_a_script_in_a_name_stays_a_name():
    after = told(PAIR, do="rename", room="a", name="<script>alert(1)</script>")

    assert after.rooms[0].name == "<script>alert(1)</script>"
    assert len(after.rooms[0].name) <= LONGEST_NAME
