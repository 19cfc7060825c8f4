import numpy as np
import pytest

from estimator.reading.sight.classes import CONTENTS, NOTHING, OUTSIDE
from estimator.reading.sight.network import look


@pytest.mark.parametrize(("size", "side_px"), [((90, 121), 121), ((200, 100), 99)])
def test_classes_and_contents_of_every_place_sum_to_one(size, side_px):
    pixels = np.full((*size, 3), 255, np.uint8)
    pixels[31:60, 23:51] = 0

    sight = look(pixels, side_px)

    tall, wide = sight.classes.shape
    assert max(tall, wide) == side_px
    assert sight.contents.shape == (len(CONTENTS), (tall + 1) // 2, (wide + 1) // 2)
    np.testing.assert_allclose(sight.shares.sum(axis=0), 1, atol=0.01)
    np.testing.assert_allclose(sight.contents.sum(axis=0), 1, atol=0.01)


def test_blank_paper_is_outside_and_holds_nothing():
    sight = look(np.full((64, 80, 3), 255, np.uint8), 80)

    assert (sight.classes == OUTSIDE).all()
    assert (sight.contents[NOTHING] == 1).all()
