"""Outlines of faces drawn as masks."""

import cv2
import numpy as np
import pytest
from shapely.geometry import Point

from estimator.reading.outlines import outline_of
from estimator.reading.settings import Settings

SETTINGS = Settings()


def test_a_rectangle_is_outlined_on_the_edges_of_its_pixels():
    face = np.zeros((100, 120), bool)
    face[10:90, 20:110] = True
    outline = outline_of(face, 8.0, SETTINGS)

    assert outline.bounds == (20, 10, 110, 90)
    assert outline.area == 80 * 90
    assert len(outline.exterior.coords) == 5


def test_ragged_edges_are_squared_through_their_middle():
    rng = np.random.default_rng(3)
    face = np.zeros((200, 300), bool)
    face[20:180, 30:270] = True
    for column in range(30, 270):
        face[20 : 20 + rng.integers(0, 3), column] = False
    outline = outline_of(face, 8.0, SETTINGS)

    assert len(outline.exterior.coords) == 5
    assert outline.area == pytest.approx(face.sum(), rel=0.005)


def test_a_round_room_stays_round():
    face = np.zeros((300, 300), np.uint8)
    cv2.circle(face, (150, 150), 120, 1, -1)
    outline = outline_of(face.astype(bool), 8.0, SETTINGS)

    assert outline.area == pytest.approx(face.sum(), rel=0.01)
    assert outline.hausdorff_distance(Point(150.5, 150.5).buffer(120)) < 4


def test_a_column_is_a_hole_and_a_speck_is_not():
    face = np.zeros((200, 300), bool)
    face[20:180, 30:270] = True
    face[80:120, 100:140] = False
    face[60:64, 200:204] = False
    outline = outline_of(face, 8.0, SETTINGS)

    assert len(outline.interiors) == 1
    assert outline.area == pytest.approx(160 * 240 - 40 * 40, rel=0.005)


def test_an_empty_face_has_no_outline():
    assert outline_of(np.zeros((20, 20), bool), 8.0, SETTINGS) is None
