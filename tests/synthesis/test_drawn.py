import numpy as np
import pytest

from estimator.reading.sight.classes import CLASSES, CONTENTS, DOOR, PASSAGE, ROOM, STAIRS, WALL
from estimator.synthesis.drawn import FAMILIES, drawn, family
from estimator.synthesis.manners import HELD_OUT, style_names

SEEDS = range(24)


@pytest.fixture(scope="module")
def drawings():
    return [drawn(seed, side_px=256) for seed in SEEDS]


def test_a_number_always_gives_the_same_drawing(drawings):
    for seed in (0, 5, 11):
        again = drawn(seed, side_px=256)
        assert np.array_equal(drawings[seed].pixels, again.pixels)
        assert np.array_equal(drawings[seed].labels, again.labels)


def test_drawings_differ(drawings):
    assert len({drawing.pixels.tobytes() for drawing in drawings}) == len(drawings)


def test_picture_labels_and_rooms_share_a_square(drawings):
    for drawing in drawings:
        assert drawing.pixels.shape == (256, 256, 3)
        assert drawing.labels.shape == drawing.instances.shape == (256, 256)
        assert drawing.pixels.dtype == drawing.labels.dtype == np.uint8


def test_every_class_is_shown_somewhere_and_no_other(drawings):
    shown = set(np.unique(np.concatenate([drawing.labels.ravel() for drawing in drawings])))

    assert shown == set(range(len(CLASSES)))


def test_room_pixels_and_only_they_belong_to_a_room(drawings):
    for drawing in drawings:
        assert np.array_equal(drawing.labels == ROOM, drawing.instances > 0)


def test_rooms_touch_nothing_but_walls_and_openings(drawings):
    # two rooms side by side without a border would teach the network to merge them
    merged = 0
    for drawing in drawings:
        rooms = drawing.instances
        for one, other in ((rooms[:, 1:], rooms[:, :-1]), (rooms[1:], rooms[:-1])):
            merged += np.count_nonzero((one > 0) & (other > 0) & (one != other))

    assert merged < 0.0005 * sum(drawing.labels.size for drawing in drawings)


def test_each_room_has_its_area(drawings):
    for drawing in drawings:
        assert len(drawing.areas) >= drawing.instances.max()
        assert all(area > 0 for area in drawing.areas)


def test_doors_lie_in_walls(drawings):
    for drawing in drawings:
        if (drawing.labels == DOOR).any():
            assert (drawing.labels == WALL).any()


def test_training_never_shows_a_manner_that_is_held_out(drawings):
    held = {name for names in HELD_OUT.values() for name in names}
    for drawing in drawings:
        assert not held & set(drawing.style.split(", "))


def test_every_held_out_drawing_shows_such_a_manner():
    held = {name for names in HELD_OUT.values() for name in names}
    for seed in range(6):
        assert held & set(drawn(seed, side_px=128, held_out=True).style.split(", "))


def test_manners_are_parted_in_two():
    trained, held = style_names(held_out=False), style_names(held_out=True)

    assert not set(trained) & set(held)
    assert len(held) == sum(len(names) for names in HELD_OUT.values())


@pytest.fixture(scope="module")
def many():
    """Forty drawings with what stands in them."""
    return [drawn(seed, side_px=384) for seed in range(40)]


def test_passages_lie_in_gaps_and_furniture_on_floors(many):
    steady = [drawing for drawing in many if drawing.family != "photo or sketch"]
    gaps = np.concatenate([one.labels[one.contents == PASSAGE] for one in steady])
    floors = np.concatenate([one.labels[one.contents > STAIRS] for one in steady])

    assert np.mean(gaps == DOOR) > 0.6  # a gap is three pixels deep, and one lies on its edge
    assert np.mean(floors == ROOM) > 0.93


def test_most_kinds_of_contents_are_drawn(many):
    seen = set(np.concatenate([np.unique(drawing.contents) for drawing in many]).tolist())

    assert len(seen) >= len(CONTENTS) - 2


def test_every_family_is_drawn(many):
    assert {drawing.family for drawing in many} == set(FAMILIES)


def test_the_family_is_known_before_anything_is_drawn():
    for seed in range(6):
        assert drawn(seed, side_px=128, held_out=True).family == family(seed, held_out=True)
