import string

import numpy as np
import pytest

from estimator.synthesis.lettering import FONTS, PEN, extent, stamp
from estimator.synthesis.pen_letters import pen_strokes, pen_width


@pytest.mark.parametrize("font", FONTS)
def test_letters_make_ink_of_about_the_extent_they_claim(font):
    mask = stamp("Bedroom 2", 20, font)
    columns = np.flatnonzero(mask.max(axis=0) > 0)

    assert columns[-1] - columns[0] == pytest.approx(extent("Bedroom 2", 20, font)[0], rel=0.1)


def test_square_metres_have_a_glyph_in_every_font():
    for font in FONTS:
        assert not np.array_equal(stamp("²", 30, font), stamp("ↂ", 30, font))


def test_the_pen_knows_capitals_numbers_and_what_sizes_need():
    for letter in string.ascii_uppercase + string.digits + ".,'\"-/:()&":
        assert pen_strokes(letter, (0, 0), 10), letter


def test_pen_letters_are_centred_and_as_wide_as_they_claim():
    points = np.concatenate(pen_strokes("HALL", (50, 20), 12))

    assert points[:, 1].min() == pytest.approx(14)
    assert points[:, 1].max() == pytest.approx(26)
    assert np.ptp(points[:, 0]) < pen_width("HALL", 12) == extent("HALL", 12 / 0.72, PEN)[0]
