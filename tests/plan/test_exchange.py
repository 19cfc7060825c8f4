import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from estimator.errors import PlanError, RoomsOverlap
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.exchange import plan_from_dict, plan_to_dict
from estimator.plan.furnishing import Furnishing
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Hinge, Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Ceiling, Profile, Room
from estimator.plan.storey import Scale, Source, Storey

FULL = Plan(
    title="Larkfield house",
    storeys=(
        Storey(
            number=0,
            name="ground floor",
            source=Source(file="house.png", width_px=800, height_px=600),
            scale=Scale(metres_per_px=0.01, relative_error=0.02, basis="two points 4 m apart"),
        ),
        Storey(number=1, name="first floor"),
    ),
    rooms=(
        Room(
            id="kitchen",
            name="Kitchen",
            use="kitchen",
            outline=Polygon([(0, 0), (4, 0), (4, 3), (0, 3)], [[(1, 1), (1, 2), (2, 2), (2, 1)]]),
            outline_px=Polygon([(0, 0), (400, 0), (400, 300), (0, 300)]),
            ceiling_height=2.4,
            ceiling=Ceiling(profile=Profile.GABLE, top=3.1, towards=90.0),
            confidence=0.9,
            basis=Basis.READ,
            openings=(
                Opening(
                    id="d1",
                    kind=OpeningKind.DOOR,
                    start=(1.0, 0.0),
                    end=(1.9, 0.0),
                    height=2.0,
                    sill=0.0,
                    leads_to="hall",
                    opens_in=False,
                    hinge=Hinge.END,
                ),
            ),
            furnishings=(Furnishing(kind="sink", footprint=rectangle(0.6, 0.5)),),
        ),
        Room(id="hall", name="Hall", storey=1, outline=rectangle(1 / 3, math.pi)),
    ),
    doubts=(Doubt(aspect=Aspect.HEIGHT, room="hall", says="Height assumed.", confidence=0.6),),
)

SQUARE = {"id": "a", "name": "Office", "outline": [[0, 0], [4, 0], [4, 4], [0, 4]]}


def document(*rooms, **more):
    return {"schema": "plan/1", "rooms": list(rooms), **more}


def opening(**parts):
    return {"id": "o", "kind": "door", "start": [1, 0], "end": [2, 0], **parts}


def test_a_plan_survives_the_trip_through_json_without_loss():
    assert plan_from_dict(json.loads(json.dumps(plan_to_dict(FULL)))) == FULL


@given(st.lists(st.tuples(*[st.floats(0.1, 50, allow_nan=False)] * 2, st.floats(2, 6)), min_size=1))
def test_typed_sizes_survive_the_trip_whatever_they_are(sizes):
    rooms = tuple(
        Room(id=str(at), name="Room", outline=rectangle(w, d, left=60 * at), ceiling_height=h)
        for at, (w, d, h) in enumerate(sizes)
    )
    plan = Plan(rooms=rooms)
    assert plan_from_dict(json.loads(json.dumps(plan_to_dict(plan)))) == plan


def test_one_storey_needs_no_list_of_storeys():
    scale = {"metres_per_px": 0.01, "relative_error": 0.0, "basis": "typed"}
    plan = plan_from_dict(document(SQUARE, source=None, scale=scale))
    assert plan.scale == Scale(metres_per_px=0.01, relative_error=0.0, basis="typed")


def test_a_crossing_outline_is_mended_and_said():
    # A bow tie with a large and a small half: areas 4 and 1 (textbook triangles).
    bow_tie = {"id": "b", "name": "Store", "outline": [[0, 0], [6, 3], [6, 0], [0, 3]]}
    plan = plan_from_dict(document(bow_tie))
    assert plan.rooms[0].outline.area == pytest.approx(4.5)
    assert "crossed itself" in plan.doubts[0].says


def test_a_room_inside_another_is_taken_out_of_it():
    inner = {"id": "c", "name": "Cupboard", "outline": [[1, 1], [2, 1], [2, 2], [1, 2]]}
    plan = plan_from_dict(document(SQUARE, inner))
    assert sum(room.outline.area for room in plan.rooms) == pytest.approx(16.0)
    assert "overlapped by 1.0 m²" in plan.doubts[0].says


def test_the_same_room_twice_is_refused():
    with pytest.raises(RoomsOverlap, match="claim the same floor"):
        plan_from_dict(document(SQUARE, {**SQUARE, "id": "b"}))


def test_a_door_off_its_wall_is_moved_onto_it_and_said():
    door = opening(start=[1, 0.2], end=[2, 0.2])
    plan = plan_from_dict(document({**SQUARE, "openings": [door]}))
    assert plan.rooms[0].openings[0].start == (1.0, 0.0)
    assert "lay off its wall by 0.20 m and was moved" in plan.doubts[0].says


def test_a_door_in_the_middle_of_the_room_is_left_out_and_said():
    door = opening(start=[1.5, 2], end=[2.5, 2])
    plan = plan_from_dict(document({**SQUARE, "openings": [door]}))
    assert plan.rooms[0].openings == ()
    assert "lay on none of its walls" in plan.doubts[0].says


def test_a_window_wider_than_its_wall_is_cut_to_fit():
    window = opening(kind="window", start=[-1, 0], end=[5, 0])
    plan = plan_from_dict(document({**SQUARE, "openings": [window]}))
    assert plan.rooms[0].openings[0].width == pytest.approx(4.0)
    assert "cut to fit" in plan.doubts[0].says


def test_a_door_higher_than_the_ceiling_is_cut_off_there():
    door = opening(height=3.0)
    plan = plan_from_dict(document({**SQUARE, "ceiling_height": 2.4, "openings": [door]}))
    assert plan.rooms[0].openings[0].height == pytest.approx(2.4)
    assert "above the ceiling" in plan.doubts[0].says


@pytest.mark.parametrize(
    ("room", "sentence"),
    [
        ({**SQUARE, "ceiling_height": -1}, "must be at least 0 m"),
        ({**SQUARE, "ceiling_height": 0}, "its ceiling height is 0 m"),
        ({**SQUARE, "ceiling_height": math.nan}, "must be at least 0 m"),
        ({**SQUARE, "outline": [[0, 0], [math.nan, 0], [1, 1]]}, "corner without a place"),
        ({**SQUARE, "outline": [[0, 0], [1, 1], [2, 2]]}, "encloses no area"),
        ({**SQUARE, "outline": [[0, 0], [1, 1]]}, "fewer than three corners"),
        ({**SQUARE, "outline": None}, "the room has no outline"),
        ({**SQUARE, "outline": "big"}, "a value is unusable"),
        ({"name": "Office"}, "'id' is missing"),
        ({**SQUARE, "storey": 3}, "there is no storey 3"),
        ({**SQUARE, "openings": [opening(kind="hatch")]}, "a value is unusable"),
        ({**SQUARE, "openings": [opening(end=None)]}, "the opening has one end"),
        ({**SQUARE, "furnishings": [{"kind": "desk", "count": 0}]}, "there are 0 of it"),
    ],
)
def test_what_cannot_be_mended_is_refused_in_one_sentence(room, sentence):
    with (
        pytest.raises(PlanError, match=sentence)
        if "at least" not in sentence
        else (pytest.raises(ValueError, match=sentence)) as caught
    ):
        plan_from_dict(document(room))
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    "data", [None, [], {}, {"schema": "plan/2"}, {"schema": "plan/1", "rooms": 7}]
)
def test_other_documents_are_refused(data):
    with pytest.raises(PlanError):
        plan_from_dict(data)


def test_a_plan_without_a_scale_comes_back_unchanged():
    room = Room(id="a", name="Hall", outline_px=rectangle(200, 300))
    plan = Plan(rooms=(room,))

    assert plan_from_dict(plan_to_dict(plan)) == plan


def test_an_opening_along_a_wall_read_with_a_step_in_it_is_kept_whole():
    stepped = {**SQUARE, "outline": [[0, 0], [2, 0], [2, 0.03], [4, 0.03], [4, 4], [0, 4]]}
    window = opening(kind="window", start=[1.5, 0], end=[2.5, 0.03])
    around_a_corner = opening(start=[4, 0.5], end=[3.0, 0.03])

    plan = plan_from_dict(document({**stepped, "openings": [window]}))
    assert plan.rooms[0].openings[0].width == pytest.approx(1.0, abs=0.01)
    assert not plan.doubts
    assert plan_from_dict(document({**stepped, "openings": [around_a_corner]})).doubts
