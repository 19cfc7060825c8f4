import numpy as np
import pytest
from shapely.geometry import Polygon

from estimator.reading.sight.classes import DOOR, ROOM, WALL, WINDOW
from estimator.synthesis.frame import Frame
from estimator.synthesis.labels import Truth
from estimator.synthesis.larkfield.homes import family_home, riverside_flat
from estimator.synthesis.layouts import area
from estimator.synthesis.paper import Pixels
from estimator.synthesis.styles import Style, WallManner
from estimator.synthesis.walls import draw_walls


@pytest.mark.parametrize("px_per_m", [23.0, 41.3, 67.7])
@pytest.mark.parametrize("layout", [family_home(), riverside_flat()], ids=lambda one: one.title)
def test_the_pixels_of_a_room_add_up_to_its_area(layout, px_per_m):
    truth = Truth.blank(1200, 900)
    truth.add(layout, Frame(px_per_m, 30.3, 30.7), solid_shafts=False)
    for number, space in enumerate(layout.spaces, 1):
        marked = np.count_nonzero(truth.instances == number) / px_per_m**2
        assert marked == pytest.approx(area(layout.inside(space)), rel=0.03)


def test_drawn_walls_leave_rooms_their_true_area():
    layout, px_per_m = family_home(), 60.0
    paper = Pixels.blank(1000, 800, (255, 255, 255))
    draw_walls(
        paper, layout, Frame(px_per_m, 60, 60), Style(name="", inner=WallManner(fill=(0, 0, 0)))
    )
    ink = (255 - paper.finished()[..., 0].astype(float)).sum() / 255 / px_per_m**2
    rings = [layout.outside(), *(layout.inside(space) for space in layout.spaces)]
    walls = area(rings[0]) - sum(area(ring) for ring in rings[1:])
    faces = sum(Polygon(ring).length for ring in rings)

    # on average no wall face lies a seventh of a pixel off its place
    assert abs(ink - walls) / faces * px_per_m < 1 / 7


def test_openings_take_the_place_of_wall():
    layout = family_home()
    truth = Truth.blank(900, 700)
    frame = Frame(50.0, 50, 50)
    truth.add(layout, frame, solid_shafts=False)
    for gap in layout.gaps:
        x, y = frame.spot(gap.place(gap.width / 2, 0))
        shown = truth.labels[round(y), round(x)]
        assert shown == (WINDOW if gap.kind.value == "window" else DOOR)
    assert {WALL, DOOR, WINDOW, ROOM} <= set(np.unique(truth.labels))
