"""What is laid over a finished drawing: shadows and grain, watermarks."""

import numpy as np
import pytest

from estimator.reading.sight.classes import OUTSIDE, ROOM, WALL
from estimator.synthesis.rendering import rendered
from estimator.synthesis.watermarks import watermarked


def room_in_walls():
    labels = np.full((120, 160), OUTSIDE, np.uint8)
    labels[20:100, 30:130] = WALL
    labels[26:94, 36:124] = ROOM
    picture = np.where(labels[..., None] == WALL, 40, 240).astype(np.uint8).repeat(3, axis=2)
    return picture, labels


@pytest.mark.parametrize("seed", range(8))
def test_rendering_shades_floors_and_paper_but_leaves_walls_as_drawn(seed):
    picture, labels = room_in_walls()

    shaded = rendered(picture, labels, np.random.default_rng(seed))

    assert (shaded[labels == WALL] == 40).all()
    assert shaded[labels == ROOM].mean() > 100


def test_most_renderings_differ_from_what_was_drawn():
    picture, labels = room_in_walls()
    differ = [
        (rendered(picture, labels, np.random.default_rng(seed)) != picture).any()
        for seed in range(12)
    ]

    assert np.mean(differ) > 0.6


@pytest.mark.parametrize("seed", range(4))
def test_a_drawing_shows_through_its_watermark(seed):
    picture, labels = room_in_walls()

    marked = watermarked(picture, np.random.default_rng(seed))

    assert (marked <= picture).all()
    assert (marked < picture).any()
    assert marked[labels == ROOM].min() > marked[labels == WALL].max()
