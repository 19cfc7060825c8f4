import numpy as np
import pytest

from estimator.synthesis.degradation import moved, scanned, turned, two_toned
from estimator.synthesis.hand import Hand
from estimator.synthesis.labels import Truth
from estimator.synthesis.paper import Pixels
from estimator.synthesis.wear import Wear


def marked():
    picture = np.full((200, 200, 3), 255, np.uint8)
    picture[60:140, 50:150] = 0
    labels = np.where(picture[..., 0] == 0, 1, 0).astype(np.uint8)
    return picture, Truth(labels, np.zeros((200, 200), np.int16), labels)


@pytest.mark.parametrize("seed", range(6))
def test_labels_go_where_the_ink_goes(seed):
    picture, truth = marked()
    wear = Wear(rng=np.random.default_rng(seed), hardness=1.0)
    picture, truth = wear.tremble(*wear.warp(picture, truth))
    inked = picture.max(axis=2) < 10

    assert np.count_nonzero(inked & (truth.labels == 0)) < 0.02 * inked.sum() + 4000 * (not seed)
    assert np.count_nonzero(~inked & (truth.labels == 1)) < 0.08 * inked.sum()


@pytest.mark.parametrize("seed", range(6))
def test_a_photograph_takes_labels_and_contents_along(seed):
    picture, truth = marked()
    _, seen = Wear(rng=np.random.default_rng(seed), hardness=0.5).photograph(picture, truth)

    assert np.array_equal(seen.labels, seen.contents)
    assert 0.4 * truth.labels.sum() < seen.labels.sum() <= 1.05 * truth.labels.sum()


def test_spoiling_keeps_the_size_and_the_kind_of_picture():
    picture, _ = marked()
    for seed in range(12):
        spoiled = Wear(rng=np.random.default_rng(seed), hardness=1.0).spoil(picture)
        assert spoiled.shape == picture.shape
        assert spoiled.dtype == np.uint8


def test_a_turn_about_the_middle_keeps_the_middle_and_distances():
    matrix = turned((200, 100), 12.0)
    points = moved(matrix, np.array([(100.0, 50.0), (110.0, 50.0)]))

    assert points[0] == pytest.approx((100, 50))
    assert np.hypot(*(points[1] - points[0])) == pytest.approx(10)


def test_a_scan_is_grey_and_an_archive_copy_two_toned():
    picture, _ = marked()
    scan = scanned(picture, np.random.default_rng(0))

    assert np.array_equal(scan[..., 0], scan[..., 2])
    assert set(np.unique(two_toned(scan))) == {0, 255}


def test_a_hand_strays_a_little_from_the_line():
    paper = Pixels.blank(200, 60, (255, 255, 255))
    hand = Hand(paper=paper, rng=np.random.default_rng(3), sway_px=1.5)
    hand.stroke([np.array([(20.0, 30.0), (180.0, 30.0)])], (0, 0, 0), 2.0)
    rows = np.flatnonzero(paper.finished()[..., 0].min(axis=1) < 128)

    assert 22 < rows.min() <= 30 <= rows.max() < 38
    assert len(rows) > 3
