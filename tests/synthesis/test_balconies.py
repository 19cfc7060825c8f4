import numpy as np
import pytest
from shapely.geometry import Polygon

from estimator.plan.opening import OpeningKind
from estimator.reading.sight.classes import ROOM, WALL
from estimator.synthesis.balconies import edge_of, with_balconies
from estimator.synthesis.frame import Frame
from estimator.synthesis.invention import KINDS, invented
from estimator.synthesis.labels import Truth


@pytest.fixture(scope="module")
def railed():
    """Ten houses with balconies."""
    houses = []
    for seed in range(40):
        rng = np.random.default_rng(seed)
        layout = invented(rng, KINDS["house"], thick_px=(3, 9), room_px=500)
        layout, balconies = with_balconies(layout, rng)
        if balconies:
            houses.append((layout, balconies))
    return houses[:10]


def test_a_balcony_lies_outside_the_building_and_apart_from_the_next(railed):
    assert len(railed) == 10
    for layout, balconies in railed:
        building = Polygon(layout.outside())
        floors = [
            Polygon(layout.inside(space)) for space in layout.spaces if space.use == "balcony"
        ]
        assert len(floors) == len(balconies)
        assert all(floor.intersection(building).area < 0.05 for floor in floors)
        assert all(a.disjoint(b) for a in floors for b in floors if a is not b)


def test_a_door_leads_to_every_balcony(railed):
    for layout, balconies in railed:
        doors = [gap for gap in layout.gaps if gap.kind is OpeningKind.DOOR and gap.other is None]
        for balcony in balconies:
            edge = Polygon(edge_of(layout, balcony)).buffer(0.05)
            assert any(edge.intersects(Polygon(door.band())) for door in doors)


def test_its_floor_is_a_room_and_its_rail_a_wall(railed):
    layout, balconies = railed[0]
    frame = Frame(30.0, 200.0, 200.0)
    truth = Truth.blank(1100, 1100)
    truth.add(layout, frame, balconies, solid_shafts=True)
    floor = Polygon(layout.inside(layout.spaces[-1])).centroid
    x, y = frame.spot((floor.x, floor.y))

    assert truth.labels[int(y), int(x)] == ROOM
    edge = Polygon(edge_of(layout, balconies[-1])).exterior
    inside = Polygon(layout.outside())
    walled = [
        truth.labels[int(py), int(px)] == WALL
        for point in [edge.interpolate(share, normalized=True) for share in np.linspace(0, 1, 60)]
        if not inside.contains(point)
        for px, py in [frame.spot((point.x, point.y))]
    ]
    assert np.mean(walled) > 0.5
