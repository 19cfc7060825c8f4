"""Two storeys drawn beside each other at 0.01 m a pixel, so that the printed figures are ours."""

import numpy as np
import pytest

from estimator.lettering.captions import by_storeys
from estimator.lettering.labels import labels_of
from estimator.lettering.lettered import Lettered, scaled
from estimator.lettering.naming import placed
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Source, Storey
from estimator.reading.picture import Picture
from estimator.reading.scale import ROOMS_OF_TOTAL

SCALE = 0.01
SHEET = Source(file="sheet", width_px=2400, height_px=1000)
PICTURE = Picture(pixels=np.full((1000, 2400, 3), 255, np.uint8))


@pytest.fixture
def read(words):
    """Two rooms of 4 m x 3 m each to the left and one of 5 m x 4 m to the right, lettered."""

    def found(lines):
        outlines = {
            "a": rectangle(400, 300),
            "b": rectangle(400, 300, left=410),
            "c": rectangle(500, 400, left=1500),
        }
        rooms = tuple(Room(id=key, name=key, outline_px=one) for key, one in outlines.items())
        plan = Plan(storeys=(Storey(source=SHEET),), rooms=rooms)
        return by_storeys(Lettered(plan=plan, labels=placed(labels_of(lines, words), plan)))

    return found


def test_captions_beside_other_figures_name_the_storeys(read, line):
    found = read([line("FIRST FLOOR 20 m²", (1750, 450)), line("GROUND FLOOR", (400, 350))])
    assert [storey.name for storey in found.plan.storeys] == ["Ground floor", "First floor"]
    assert [room.storey for room in found.plan.rooms] == [0, 0, 1]


def test_all_figures_of_a_sheet_vote_for_its_one_scale(read, line):
    lines = [
        line("Ground Floor", (400, 350)),
        line("First Floor", (1750, 450)),
        line("4.00 x 3.00 m", (200, 150)),
        line("5.00 x 4.00 m", (1750, 200)),
    ]
    found = scaled(read(lines), PICTURE)
    assert [vote.agrees for vote in found.votes] == [True] * 4
    scales = [storey.scale.metres_per_px for storey in found.plan.storeys]
    assert scales == pytest.approx([SCALE, SCALE], rel=1e-3)
    assert [room.outline.area for room in found.plan.rooms] == pytest.approx([12, 12, 20], rel=2e-3)


def test_a_printed_total_may_be_that_of_its_storey_or_of_the_house(read, line):
    totals = [24 / ROOMS_OF_TOTAL, 20 / ROOMS_OF_TOTAL, 44 / ROOMS_OF_TOTAL]
    lines = [
        line(f"Ground Floor {totals[0]:.2f} m²", (400, 350)),
        line(f"First Floor {totals[1]:.2f} m²", (1750, 450)),
        line(f"Total {totals[2]:.2f} m²", (1200, 950)),
    ]
    found = scaled(read(lines), PICTURE)
    assert len(found.votes) == 3
    assert all(vote.agrees for vote in found.votes)
    assert found.plan.scale.metres_per_px == pytest.approx(SCALE, rel=1e-3)
