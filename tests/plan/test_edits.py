import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from estimator.errors import PlanError
from estimator.plan import edits
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.drawing import split
from estimator.plan.furnishing import Furnishing
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Hinge, Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey

# Two rooms side by side, a wall of 0.1 m between them, and a door in it.
DOOR = Opening(id="d", kind=OpeningKind.DOOR, start=(3.0, 1.0), end=(3.0, 1.9), leads_to="b")
BACK = Opening(id="e", kind=OpeningKind.DOOR, start=(3.1, 1.0), end=(3.1, 1.9), leads_to="a")
PAIR = Plan(
    rooms=(
        Room(id="a", name="Hall", outline=rectangle(3, 4), openings=(DOOR,)),
        Room(id="b", name="Office", outline=rectangle(2, 4, left=3.1), openings=(BACK,)),
    )
)
READ = Plan(
    storeys=(Storey(source=Source(file="a.png", width_px=500, height_px=500)),),
    rooms=(Room(id="a", name="Hall", outline_px=rectangle(300, 400)),),
)


def scale(metres_per_px, relative_error=0.0):
    return Scale(metres_per_px=metres_per_px, relative_error=relative_error, basis="a known wall")


def test_merging_takes_the_wall_between_as_floor_and_drops_its_door():
    plan = edits.merged(PAIR, ["a", "b"])
    assert [room.id for room in plan.rooms] == ["a"]
    assert plan.rooms[0].outline.area == pytest.approx(5.1 * 4)
    assert plan.rooms[0].openings == ()


def test_rooms_apart_are_not_merged():
    far = edits.added(PAIR, Room(id="c", name="Shed", outline=rectangle(2, 2, left=20)))
    with pytest.raises(PlanError, match="do not touch"):
        edits.merged(far, ["a", "c"])


def test_merging_needs_two_rooms():
    with pytest.raises(PlanError, match="fewer than two"):
        edits.merged(PAIR, ["a", "a"])


def test_a_removed_room_leaves_no_door_leading_to_it():
    plan = edits.removed(PAIR, "b")
    assert plan.rooms[0].openings[0].leads_to is None


@given(st.floats(0.001, 0.1))
def test_a_scale_gives_every_room_its_size(metres_per_px):
    plan = edits.rescaled(READ, scale(metres_per_px))
    assert plan.rooms[0].outline.area == pytest.approx(120_000 * metres_per_px**2)
    assert plan.scale == scale(metres_per_px)


def test_a_new_scale_replaces_the_doubt_about_the_old():
    plan = edits.rescaled(edits.rescaled(READ, scale(0.01, 0.05)), scale(0.02, 0.03))
    assert [doubt.aspect for doubt in plan.doubts] == [Aspect.SCALE]
    assert plan.doubts[0].relative_error == 0.03
    assert edits.rescaled(plan, scale(0.02)).doubts == ()


def sheet_with_two_plans():
    """Two storeys beside each other on one picture."""
    source = Source(file="house.png", width_px=900, height_px=400)
    rooms = [
        Room(id=name, name=name, storey=at, outline_px=rectangle(400, 300, left=500 * at))
        for at, name in enumerate("ab")
    ]
    return Plan(
        storeys=tuple(Storey(number=at, source=source) for at in range(2)), rooms=tuple(rooms)
    )


def test_storeys_of_one_picture_have_one_scale():
    plan = edits.rescaled(sheet_with_two_plans(), scale(0.01, 0.05), 1)
    assert [level.scale for level in plan.storeys] == [scale(0.01, 0.05)] * 2
    assert [room.outline.area for room in plan.rooms] == pytest.approx([12, 12])
    assert len(plan.doubts) == 1


def test_a_new_scale_of_one_picture_leaves_the_doubt_about_that_of_another():
    above = evolve(READ, storeys=(Storey(source=evolve(READ.storeys[0].source, file="b.png")),))
    plan = edits.stacked([edits.rescaled(READ, scale(0.01, 0.05)), above])
    both = edits.rescaled(plan, scale(0.01, 0.1), 1)
    assert [doubt.relative_error for doubt in both.doubts] == [0.05, 0.1]
    assert [level.scale.relative_error for level in both.storeys] == [0.05, 0.1]
    surer = edits.rescaled(both, scale(0.01), 1)
    assert [doubt.relative_error for doubt in surer.doubts] == [0.05]


def test_a_storey_goes_with_its_rooms_and_doubts_but_not_the_last():
    doubt = Doubt(aspect=Aspect.OUTLINE, room="a", says="Weak.", confidence=0.5)
    plan = evolve(sheet_with_two_plans(), doubts=(doubt,))
    left = edits.without_storey(plan, 0)
    assert ([room.id for room in left.rooms], left.doubts) == (["b"], ())
    assert [level.number for level in left.storeys] == [0]
    with pytest.raises(PlanError, match="only storey"):
        edits.without_storey(left, 0)


def test_a_given_height_settles_the_doubt_about_it():
    doubt = Doubt(aspect=Aspect.HEIGHT, room="a", says="Assumed.", confidence=0.5)
    plan = Plan(rooms=PAIR.rooms, doubts=(doubt,))
    assert edits.with_height(plan, "b", 3.0).doubts == (doubt,)
    plan = edits.with_height(plan, "a", 3.0)
    assert (plan.doubts, plan.rooms[0].ceiling_height) == ((), 3.0)


def test_storeys_stack_with_their_rooms_and_doors_kept_apart():
    plan = edits.stacked([PAIR, PAIR])
    assert [room.storey for room in plan.rooms] == [0, 0, 1, 1]
    assert len({room.id for room in plan.rooms}) == 4
    assert plan.rooms[2].openings[0].leads_to == plan.rooms[3].id


def test_outlines_are_equal_whatever_corner_they_start_from():
    corners = [(0, 0), (3, 0), (3, 4), (0, 4)]
    turned = corners[2:] + corners[:2]
    assert Room(id="a", name="", outline=Polygon(corners)) == Room(
        id="a", name="", outline=Polygon(turned)
    )


SWINGING = evolve(DOOR, start_px=(300, 100), end_px=(300, 190), opens_in=True, hinge=Hinge.END)
FURNISHED = Plan(
    storeys=READ.storeys,
    rooms=(
        evolve(
            READ.rooms[0],
            openings=(SWINGING,),
            furnishings=(
                Furnishing(kind="bath", footprint_px=rectangle(170, 70)),
                Furnishing(kind="stairs", footprint_px=rectangle(90, 250, left=200, top=100)),
            ),
        ),
    ),
)


def test_a_scale_gives_furniture_and_stairs_their_size():
    (room,) = edits.rescaled(FURNISHED, scale(0.01)).rooms

    assert [piece.footprint.area for piece in room.furnishings] == pytest.approx([1.19, 2.25])
    (again,) = edits.rescaled(edits.rescaled(FURNISHED, scale(0.01)), scale(0.02)).rooms
    assert again.furnishings[0].footprint.area == pytest.approx(4 * 1.19)


def test_a_door_keeps_its_swing_through_every_correction():
    sized = edits.rescaled(FURNISHED, scale(0.01))
    other = Room(id="b", name="Office", outline=rectangle(2, 4, left=3.1))
    both = edits.added(sized, other)
    for plan in (
        edits.renamed(both, "a", "Bath"),
        edits.removed(both, "b"),
        edits.stacked([both, both]),
        split(both, "a", (0, 300), (300, 300), new_id="c"),
    ):
        door = plan.rooms[0].openings[0]
        assert (door.opens_in, door.hinge, door.width) == (True, Hinge.END, pytest.approx(0.9))


def test_furniture_goes_with_its_floor_when_a_room_is_split_or_merged():
    sized = edits.rescaled(FURNISHED, scale(0.01))

    parts = split(sized, "a", (0, 80), (300, 80), new_id="c")
    assert [[piece.kind for piece in room.furnishings] for room in parts.rooms] == [
        ["stairs"],
        ["bath"],
    ]
    whole = edits.merged(parts, ["a", "c"])
    assert {piece.kind for piece in whole.rooms[0].furnishings} == {"bath", "stairs"}
