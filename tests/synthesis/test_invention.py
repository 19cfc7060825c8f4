import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, Polygon

from estimator.synthesis import bending
from estimator.synthesis.furnishing import furnished
from estimator.synthesis.invention import KINDS, invented
from estimator.synthesis.masonry import with_bays, with_blocks
from estimator.synthesis.recipes import RECIPES


def made(kind, seed):
    rng = np.random.default_rng(seed)
    return invented(rng, KINDS[kind], thick_px=(2.5, 10.0), room_px=450.0)


def floors(layout):
    return [Polygon(layout.inside(space)) for space in layout.spaces]


CASES = [(kind, seed) for kind in KINDS for seed in range(3)]


@pytest.mark.parametrize(("kind", "seed"), CASES)
def test_rooms_fill_the_footprint_without_overlap(kind, seed):
    layout = made(kind, seed)
    corners = [Polygon(space.corners) for space in layout.spaces]

    assert shapely.union_all(corners).area == pytest.approx(Polygon(layout.footprint).area)
    assert sum(one.area for one in corners) == pytest.approx(Polygon(layout.footprint).area)
    assert all(floor.is_valid and floor.area > 0.1 for floor in floors(layout))


@pytest.mark.parametrize(("kind", "seed"), CASES)
def test_openings_lie_between_the_rooms_they_name(kind, seed):
    layout = made(kind, seed)
    rings = {space.name: Polygon(space.corners).exterior for space in layout.spaces}
    for gap in layout.gaps:
        span = LineString([gap.start, gap.end])
        for name in filter(None, (gap.room, gap.other)):
            assert span.within(rings[name].buffer(1e-6))


@pytest.mark.parametrize(("kind", "seed"), CASES)
def test_furniture_stands_apart_and_inside(kind, seed):
    layout = furnished(made(kind, seed), np.random.default_rng(seed), RECIPES, tries=8)
    inside = {space.name: Polygon(layout.inside(space)) for space in layout.spaces}
    beds = [Polygon(piece.footprint()) for piece in layout.pieces if "bed_" in piece.kind]
    for piece in layout.pieces:
        assert Polygon(piece.footprint()).within(inside[piece.room].buffer(0.05))
    assert all(a.disjoint(b) for at, a in enumerate(beds) for b in beds[at + 1 :])


def test_turning_keeps_areas():
    layout = made("flat", 1)
    turned = bending.bent(layout, bending.turned(33))

    assert [f.area for f in floors(turned)] == pytest.approx([f.area for f in floors(layout)])


@pytest.mark.parametrize("seed", range(4))
def test_a_cut_leaves_what_lies_on_its_side(seed):
    layout = made("office", seed)
    x = float(np.mean(np.array(layout.footprint)[:, 0]))
    kept = bending.cut(layout, (x, 0.0), (1.0, 0.0))
    west = Polygon(layout.footprint) & shapely.box(-99, -99, x, 99)

    if kept is not layout:
        assert sum(Polygon(s.corners).area for s in kept.spaces) == pytest.approx(west.area)


def test_parting_a_room_askew_keeps_its_floor():
    layout = made("house", 2)
    space = max(layout.spaces, key=lambda one: Polygon(one.corners).area)
    middle = Polygon(space.corners).representative_point()
    start, end = (middle.x - 1, middle.y - 0.7), (middle.x + 1, middle.y + 0.7)
    parted = bending.split(layout, space, start, end, 0.8)
    whole = sum(Polygon(one.corners).area for one in layout.spaces)

    assert sum(Polygon(one.corners).area for one in parted.spaces) == pytest.approx(whole)


def test_bays_add_floor_and_keep_every_room_whole():
    added = 0
    for seed in range(6):
        layout = made("house", seed)
        bayed = with_bays(layout, np.random.default_rng(seed))
        added += Polygon(bayed.footprint).area > Polygon(layout.footprint).area + 0.1
        assert all(floor.is_valid for floor in floors(bayed))

    assert added


def test_blocks_stand_in_rooms():
    for seed in range(6):
        layout = with_blocks(made("office", seed), np.random.default_rng(seed))
        whole = shapely.union_all(floors(layout)).buffer(0.01)
        assert all(Polygon(block).within(whole) for block in layout.blocks)
