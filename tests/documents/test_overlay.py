from io import BytesIO

import numpy as np
import pytest
from attrs import evolve
from PIL import Image

from estimator.documents.overlay import overlay_png
from estimator.errors import DocumentError
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
