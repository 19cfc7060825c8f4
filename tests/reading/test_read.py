"""Whole pictures against their exact truth: our own drawings of Larkfield, in eleven hands."""

import numpy as np
import pytest
from attrs import evolve

from estimator.errors import NoClosedRoom, NoWalls
from estimator.intake.pictures import open_picture
from estimator.plan.edits import rescaled
from estimator.plan.opening import OpeningKind
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.workflow.samples import samples

SAMPLES = samples()


def true_scale(sample, picture):
    """The scale the sample was drawn at, for the size it was opened at."""
    truth = sample.truth()
    (storey,) = truth.storeys
    zoom = storey.source.width_px / picture.width_px
    return evolve(truth.scale, metres_per_px=truth.scale.metres_per_px * zoom, relative_error=0.0)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: sample.picture.stem)
def test_the_floor_of_every_sample_is_read_within_2_percent_once_its_scale_is_known(sample):
    picture = open_picture(sample.picture)
    plan = rescaled(read(picture).plan, true_scale(sample, picture))
    truth = sample.truth()
    floor = sum(room.outline.area for room in plan.rooms)
    assert floor == pytest.approx(sum(room.outline.area for room in truth.rooms), rel=0.02)
    assert abs(len(plan.rooms) - len(truth.rooms)) <= 1


def test_every_room_of_the_family_home_has_its_area_and_its_doors():
    (sample,) = (one for one in SAMPLES if "family-home" in one.picture.stem)
    plan = read(open_picture(sample.picture)).plan
    truth = sample.truth()
    assert len(plan.rooms) == len(truth.rooms)
    for there in truth.rooms:
        (room,) = (one for one in plan.rooms if one.outline_px.contains(there.outline_px.centroid))
        shared = room.outline_px.intersection(there.outline_px).area
        assert shared / room.outline_px.union(there.outline_px).area > 0.95

        def ways(one):
            return sum(opening.kind is not OpeningKind.WINDOW for opening in one.openings)

        assert ways(room) == ways(there)


@pytest.mark.parametrize("side", [400, 900])
def test_noise_and_blank_paper_hold_no_rooms(side):
    noise = np.random.default_rng(side).integers(0, 255, (side, side, 3), dtype=np.uint8)
    for pixels in (noise, np.full((side, side, 3), 255, np.uint8)):
        with pytest.raises((NoWalls, NoClosedRoom)) as caught:
            read(Picture(pixels=pixels, file="x.png"))
        assert str(caught.value).startswith("x.png: ")


def test_a_drawing_bright_on_dark_is_read_like_one_dark_on_bright():
    (sample,) = (one for one in SAMPLES if "family-home" in one.picture.stem)
    pixels = open_picture(sample.picture).pixels
    given, negative = (read(Picture(pixels=one)).plan for one in (pixels, 255 - pixels))
    assert len(negative.rooms) == len(given.rooms)
    for one, other in zip(given.rooms, negative.rooms, strict=True):
        assert other.outline_px.area == pytest.approx(one.outline_px.area, rel=0.05)


def test_a_sketch_of_one_room_is_read_though_it_shows_no_door():
    pixels = np.full((700, 900, 3), 255, np.uint8)
    pixels[150:550, 200:700] = 0
    pixels[166:534, 216:684] = 255

    plan = read(Picture(pixels=pixels)).plan

    (room,) = plan.rooms
    assert room.outline_px.area == pytest.approx(468 * 368, rel=0.01)
    assert any("no door" in doubt.says for doubt in plan.doubts)


def test_a_picture_taken_in_the_dark_holds_the_same_rooms():
    (sample,) = (one for one in SAMPLES if "family-home" in one.picture.stem)
    picture = open_picture(sample.picture)
    dark = (np.asarray(picture.pixels) * 0.14 + 30).astype(np.uint8)

    rooms = read(picture).plan.rooms
    seen = read(Picture(pixels=dark)).plan.rooms

    assert len(seen) == len(rooms)
    floors = [sum(room.outline_px.area for room in each) for each in (seen, rooms)]
    assert floors[0] == pytest.approx(floors[1], rel=0.02)
