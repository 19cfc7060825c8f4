"""Doors of drawings hang where their swings are drawn, and open into the room that is swept."""

import math

import pytest
from shapely import affinity
from shapely.geometry import LineString, Point, box

from estimator.intake.drawings.dxf import dxf_plan
from estimator.intake.drawings.hanging import hung
from estimator.plan.opening import Hinge, Opening, OpeningKind
from estimator.plan.room import Room

UPPER, LOWER = box(0, 0, 4, 3), box(0, 3.1, 4, 6)


def arc(hinge, radius, first, last):
    """A curve about a hinge between two angles in degrees, y downwards as in plans."""
    turns = [math.radians(first + (last - first) * step / 16) for step in range(17)]
    x, y = hinge
    return LineString(
        [(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]
    )


def rooms(start=1.0, end=1.9, kind=OpeningKind.DOOR):
    """Two rooms above each other with an opening between them, its wall 0.1 m thick."""
    return tuple(
        Room(
            id=name,
            name=name,
            outline=outline,
            openings=(
                Opening(id=f"{name}-1", kind=kind, start=(start, y), end=(end, y), leads_to=other),
            ),
        )
        for name, outline, y, other in (("upper", UPPER, 3.0, "lower"), ("lower", LOWER, 3.1, "u"))
    )


def told(found):
    return {room.id: (room.openings[0].hinge, room.openings[0].opens_in) for room in found}


@pytest.mark.parametrize(
    ("curve", "hinge", "into"),
    [
        (arc((1.0, 3.0), 0.9, 0, -90), Hinge.START, "upper"),
        (arc((1.9, 3.0), 0.9, 180, 270), Hinge.END, "upper"),
        (arc((1.0, 3.1), 0.9, 90, 0), Hinge.START, "lower"),
        (arc((1.9, 3.1), 0.9, 180, 90), Hinge.END, "lower"),
    ],
)
def test_a_door_hangs_at_the_middle_of_its_swing(curve, hinge, into):
    assert told(hung(rooms(), [curve])) == {
        room: (hinge, room == into) for room in ("upper", "lower")
    }


def test_two_swings_that_meet_are_a_door_of_two_leaves():
    both = [arc((1.0, 3.1), 0.7, 90, 0), arc((2.4, 3.1), 0.7, 180, 90)]

    assert told(hung(rooms(1.0, 2.4), both)) == {
        "upper": (Hinge.BOTH, False),
        "lower": (Hinge.BOTH, True),
    }


@pytest.mark.parametrize(
    "curve",
    [
        arc((1.0, 3.0), 0.9, 0, -45),  # no quarter of a circle
        arc((1.0, 3.0), 0.5, 0, -90),  # a cupboard's, too small to shut it
        arc((3.5, 3.0), 0.9, 180, 270),  # another door's
        arc((1.45, 3.0), 0.9, 0, -90),  # about no jamb
    ],
)
def test_what_is_no_swing_of_the_door_tells_nothing(curve):
    assert told(hung(rooms(), [curve])) == {"upper": (None, None), "lower": (None, None)}


def test_a_window_has_no_swing():
    curve = arc((1.0, 3.0), 0.9, 0, -90)

    assert told(hung(rooms(kind=OpeningKind.WINDOW), [curve]))["upper"] == (None, None)


def hangs(room):
    """The jamb at which the one door of a room hangs, and whether it opens into the room."""
    (door,) = [one for one in room.openings if one.kind is OpeningKind.DOOR]
    return (door.start if door.hinge is Hinge.START else door.end), door.opens_in


def test_an_arc_of_a_dxf_hangs_the_door_on_both_sides_of_its_wall(sheet, house):
    drawing = sheet()
    drawing.rings(house.walls, "Walls")
    drawing.space.add_arc((5.0, 2.0), 0.9, 90, 180, dxfattribs={"layer": "misc"})
    left, right = sorted(
        dxf_plan(drawing.data(), "plan.dxf", {}, {}).rooms, key=lambda room: room.outline.bounds[0]
    )

    # The drawing's y points upwards; the rooms end at 6.3 m and begin at 0.3 m there.
    assert hangs(left) == (pytest.approx((4.7, 4.3), abs=0.02), True)
    assert hangs(right) == (pytest.approx((4.8, 4.3), abs=0.02), False)


@pytest.mark.parametrize("mirrored", [1, -1])
def test_a_block_that_is_a_door_hangs_as_it_was_inserted(sheet, house, mirrored):
    drawing = sheet()
    for room in house.rooms:
        drawing.outline(list(room.exterior.coords)[:-1], "rooms")
    door = drawing.document.blocks.new("DOOR-90")
    door.add_line((0, 0), (0, 0.9))
    door.add_arc((0, 0), 0.9, 0, 90)
    at = (5.0, 2.0) if mirrored == 1 else (5.0, 2.9)
    drawing.space.add_blockref(
        "DOOR-90", at, dxfattribs={"rotation": 90, "xscale": mirrored, "yscale": 1}
    )
    left, right = sorted(
        dxf_plan(drawing.data(), "plan.dxf", {}, {}).rooms, key=lambda room: room.outline.bounds[0]
    )

    jamb, inwards = hangs(left)
    assert jamb[1] == pytest.approx(6.3 - at[1], abs=0.02)
    assert inwards is True
    assert hangs(right)[1] is False


def test_turned_drawings_hang_alike():
    curve = affinity.rotate(arc((1.0, 3.0), 0.9, 0, -90), 30, origin=(0, 0))

    def turned(point):
        place = affinity.rotate(Point(point), 30, origin=(0, 0))
        return place.x, place.y

    def turn(room):
        door = room.openings[0]
        return Room(
            id=room.id,
            name=room.name,
            outline=affinity.rotate(room.outline, 30, origin=(0, 0)),
            openings=(
                Opening(id=door.id, kind=door.kind, start=turned(door.start), end=turned(door.end)),
            ),
        )

    assert told(hung(tuple(map(turn, rooms())), [curve]))["upper"] == (Hinge.START, True)
