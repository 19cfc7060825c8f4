from io import BytesIO

import numpy as np
import pytest
from attrs import evolve
from PIL import Image

from estimator.documents.overlay import overlay_png
from estimator.errors import DocumentError
from estimator.plan.furnishing import Furnishing
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Hinge, OpeningKind
from estimator.plan.plan import Plan


def _white(height, width):
    return np.full((height, width, 3), 255, np.uint8)


def _picture(png):
    return np.asarray(Image.open(BytesIO(png)))


@pytest.mark.parametrize("size", [(490, 580), (1, 1), (30, 20), (1500, 2000)])
def test_the_overlay_is_as_large_as_the_picture(plan, size):
    assert _picture(overlay_png(_white(*size), plan)).shape == (*size, 3)


def test_rooms_are_tinted_and_the_rest_is_left_as_it_was(plan):
    drawn = _picture(overlay_png(_white(490, 580), plan))

    # The waiting room reaches from 40 to 310 px, and to the right of the kitchen is nothing.
    assert drawn[60, 60].tolist() != [255, 255, 255]
    assert drawn[460, 560].tolist() == [255, 255, 255]


def test_the_picture_shows_through(plan):
    pixels = _white(490, 580)
    pixels[100:110, 60:300] = 0

    drawn = _picture(overlay_png(pixels, plan))

    assert int(drawn[105, 80].sum()) + 200 < int(drawn[95, 80].sum())


def test_a_plan_that_was_not_read_leaves_the_picture_alone(plan):
    typed = evolve(
        plan,
        rooms=tuple(evolve(room, outline_px=None, openings=()) for room in plan.rooms),
    )

    assert (_picture(overlay_png(_white(40, 60), typed)) == 255).all()
    assert (_picture(overlay_png(_white(40, 60), Plan())) == 255).all()


def test_furniture_and_known_swings_are_outlined(plan):
    def with_more(room):
        doors = tuple(
            evolve(one, opens_in=True, hinge=Hinge.START) if one.kind is OpeningKind.DOOR else one
            for one in room.openings
        )
        desk = Furnishing(kind="desk", footprint_px=rectangle(60, 40, left=330, top=60))
        return evolve(room, openings=doors, furnishings=(desk,) if room.id == "exam" else ())

    known = evolve(plan, rooms=tuple(map(with_more, plan.rooms)))
    changed = (
        _picture(overlay_png(_white(490, 580), known))
        != _picture(overlay_png(_white(490, 580), plan))
    ).any(axis=2)

    assert changed[60, 330:390].all()
    assert changed.sum() > 2 * (60 + 40)


@pytest.mark.parametrize("name", ["", "厨房 😀", "\x00", "x" * 300, "\ud800"])
def test_any_name_can_be_drawn(plan, name):
    named = evolve(plan, rooms=tuple(evolve(room, name=name) for room in plan.rooms))

    assert _picture(overlay_png(_white(490, 580), named)).shape == (490, 580, 3)


@pytest.mark.parametrize(
    "pixels", [np.zeros((4, 4), np.uint8), np.zeros((4, 4, 3)), np.zeros((0, 4, 3), np.uint8)]
)
def test_what_is_no_rgb_picture_is_refused(plan, pixels):
    with pytest.raises(DocumentError, match="RGB"):
        overlay_png(pixels, plan)
