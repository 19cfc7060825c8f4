"""Sheets are found where the invented camera saw them; the tolerances are ours."""

import numpy as np
import pytest

from estimator.intake.pictures import open_picture
from estimator.reading.sheet.corners import sheet_corners
from estimator.reading.sheet.flattening import sheet_in
from estimator.workflow.samples import samples

PICTURES = [open_picture(sample.picture).pixels for sample in samples()]


@pytest.mark.parametrize(
    ("desk", "seed"),
    [(desk, seed) for seed, desk in enumerate(["wood", "dark", "cloth", "pale"] * 2)],
)
def test_the_corners_of_a_photographed_sheet_are_found_within_3_pixels(photograph, desk, seed):
    photo = photograph(PICTURES[seed], seed, on=desk)
    corners = sheet_corners(photo.pixels)
    assert corners is not None
    assert np.linalg.norm(corners - photo.corners, axis=1).max() < 3.0


def test_corners_run_clockwise_from_the_upper_left(photograph):
    corners = sheet_corners(photograph(PICTURES[0], 1, tilt=10, turn=5, roll=3).pixels)
    (left, top), (right, _), (_, bottom), _ = corners
    assert left < right
    assert top < bottom


@pytest.mark.parametrize("pixels", PICTURES, ids=lambda pixels: f"{pixels.shape[1]} px wide")
def test_clean_sheets_hold_no_sheet_to_be_laid_flat(pixels):
    assert sheet_in(pixels) is None


def test_a_bright_building_on_dark_paper_is_no_sheet(new_sheet):
    drawn = new_sheet(900, 700)
    drawn.pixels[:] = 90
    drawn.box(150, 120, 760, 580, thick=12).wall(400, 120, 412, 580)
    drawn.clear(150, 120, 400, 580).clear(412, 120, 760, 580)
    assert sheet_corners(drawn.picture().pixels) is None


@pytest.mark.parametrize("light", [0, 128, 255])
def test_blank_and_noisy_pictures_hold_no_sheet(light):
    plain = np.full((300, 400, 3), light, np.uint8)
    noise = np.random.default_rng(light).integers(0, 255, plain.shape, dtype=np.uint8)
    assert sheet_corners(plain) is None
    assert sheet_corners(noise) is None


def test_bright_rooms_whose_walls_go_on_beyond_them_are_no_sheet():
    lone = np.full((700, 900, 3), 90, np.uint8)
    lone[300:580, 150:760] = 200
    joined = lone.copy()
    joined[60:300, 150:170] = joined[60:300, 740:760] = 200

    assert sheet_corners(lone) is not None
    assert sheet_corners(joined) is None
