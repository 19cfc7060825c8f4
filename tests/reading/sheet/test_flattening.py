"""Photographed samples, read and measured on the sheet laid flat, against their exact truth."""

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon

from estimator.errors import NoClosedRoom, NoWalls
from estimator.intake.pictures import open_picture
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.reading.sheet.flattening import laid_flat, sheet_in
from estimator.workflow.samples import samples
from estimator.workflow.scaling import KnownLength, KnownTotal, scaled_by


def sample(words):
    """A sample's pixels and its rooms in their pixels and in metres."""
    (one,) = (one for one in samples() if words in one.title)
    picture, truth = open_picture(one.picture), one.truth()
    zoom = picture.width_px / truth.storeys[0].source.width_px
    drawn = [np.array(room.outline_px.exterior.coords) * zoom for room in truth.rooms]
    return picture.pixels, drawn, [room.outline for room in truth.rooms]


def overlap(one, other):
    return one.intersection(other).area / one.union(other).area


def matched(rooms, outlines):
    """Pairs of a room read and the place of a true outline in the photo that it overlaps."""
    return [
        (room, at)
        for room in rooms
        for at, outline in enumerate(outlines)
        if overlap(room.outline_px, outline) >= 0.5
    ]


@pytest.mark.parametrize(
    ("words", "seed"),
    [("family home", 1), ("riverside flat", 5), ("school wing", 3), ("cafe sketch", 4)],
)
def test_rooms_of_a_photographed_sample_match_and_measure_as_drawn(photograph, words, seed):
    pixels, drawn, metres = sample(words)
    photo = photograph(pixels, seed)
    plan = read(Picture(pixels=photo.pixels)).plan
    pairs = matched(plan.rooms, [Polygon(photo.places(ring)) for ring in drawn])
    assert 2 * len(pairs) / (len(plan.rooms) + len(drawn)) >= 0.9

    total = KnownTotal(area=sum(outline.area for outline in metres), with_inner_walls=False)
    sized = scaled_by(plan, total)
    for room, at in pairs:
        area = sized.room(room.id).outline.area
        # half a pixel at the walls counts for most in the smallest rooms
        assert area == pytest.approx(metres[at].area, rel=0.03, abs=0.12)


def test_a_length_known_in_the_photo_sizes_near_and_far_rooms_alike(photograph):
    pixels, drawn, metres = sample("riverside flat")
    photo = photograph(pixels, 2, tilt=24, turn=-14, on="wood")
    plan = read(Picture(pixels=photo.pixels)).plan
    left, top, right, _ = shapely.total_bounds([Polygon(ring) for ring in drawn])
    width = shapely.total_bounds(metres)[2] - shapely.total_bounds(metres)[0]
    start, end = photo.places([[left, top], [right, top]])
    sized = scaled_by(plan, KnownLength(start_px=tuple(start), end_px=tuple(end), length=width))
    for room, at in matched(sized.rooms, [Polygon(photo.places(ring)) for ring in drawn]):
        assert room.outline.area == pytest.approx(metres[at].area, rel=0.04)


def test_a_sheet_laid_flat_looks_as_it_was_drawn(photograph):
    pixels, *_ = sample("family home")
    photo = photograph(pixels, 9, on="dark")
    sheet = sheet_in(photo.pixels)
    flat = laid_flat(Picture(pixels=photo.pixels), sheet)
    assert (flat.width_px, flat.height_px) == (sheet.width_px, sheet.height_px)
    tall, wide = pixels.shape[:2]
    assert flat.width_px / flat.height_px == pytest.approx(wide / tall, rel=0.01)
    middle = sheet.flat(photo.places([[wide / 2, tall / 2]]))[0]
    assert middle == pytest.approx([flat.width_px / 2, flat.height_px / 2], abs=3)


def test_a_photographed_page_of_text_is_refused(photograph, new_sheet):
    page = new_sheet(1000, 700)
    for line in range(24):
        page.word("the quick brown fox and the lazy dog met once more", 60, 60 + 25 * line)
    photo = photograph(page.picture().pixels, 3, on="wood")
    with pytest.raises((NoWalls, NoClosedRoom)) as caught:
        read(Picture(pixels=photo.pixels, file="page.jpg"))
    assert str(caught.value).startswith("page.jpg: ")
