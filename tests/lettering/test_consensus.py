"""Closed forms of the inverse-variance mean are textbook statistics; the other votes are ours."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import ScaleUnknown
from estimator.lettering.consensus import (
    CONTESTED,
    SUREST,
    Claim,
    Option,
    consensus,
)


def printed(*scales, error=0.01, weight=1.0):
    options = tuple(Option(metres_per_px=scale, relative_error=error) for scale in scales)
    return Claim(says="a figure", kind="room sides", options=options, weight=weight)


def test_two_votes_weigh_by_the_squares_of_their_errors():
    # x = Σ x/σ² ÷ Σ 1/σ² of the logarithms. Tukey's weights differ from 1 by (r / 4.685)², less
    # than one in a thousand here, as the votes stand a tenth of an error apart.
    near, far = printed(0.0100, error=0.02), printed(0.01002, error=0.04)

    found = consensus([near, far])

    logs = (4 * math.log(0.0100) + math.log(0.01002)) / 5
    assert found.metres_per_px == pytest.approx(math.exp(logs), rel=1e-5)


def test_the_error_of_agreeing_votes_is_that_of_their_mean():
    # 1/σ² adds up: four votes of 4 % make a mean of 2 %.
    found = consensus([printed(0.01, error=0.04)] * 4)

    assert found.relative_error == pytest.approx(0.02)


def test_no_number_of_votes_is_surer_than_the_drawing():
    assert consensus([printed(0.01)] * 500).relative_error == SUREST


def test_weights_count_as_so_many_votes():
    heavy = consensus([printed(0.0100, weight=3.0), printed(0.0101)])
    many = consensus([printed(0.0100)] * 3 + [printed(0.0101)])

    assert heavy.metres_per_px == pytest.approx(many.metres_per_px)


@pytest.mark.parametrize("factor", [0.5, 0.85, 1.12, 3.0])
def test_planted_outliers_are_named_and_leave_the_scale_alone(factor):
    good = [printed(0.01 * (1 + 0.002 * step)) for step in (-2, -1, 0, 1, 2)]
    bad = [printed(0.01 * factor), printed(0.01 * factor * 1.3)]

    found = consensus(good[:3] + bad + good[3:])

    assert found.metres_per_px == pytest.approx(0.01, rel=1e-3)
    assert [vote.agrees for vote in found.votes] == [True] * 3 + [False] * 2 + [True] * 2


def test_a_figure_of_two_meanings_counts_by_the_one_that_fits():
    doubtful = printed(0.0300, 0.0100)

    found = consensus([printed(0.0101), doubtful, printed(0.0099)])

    assert found.votes[1].metres_per_px == 0.0100
    assert found.votes[1].agrees


def test_votes_that_contradict_each_other_leave_the_scale_in_doubt():
    found = consensus([printed(scale) for scale in (0.010, 0.013, 0.017, 0.0102)])

    assert found.relative_error >= CONTESTED


def test_one_vote_is_the_scale():
    found = consensus([printed(0.0123, error=0.02)])

    assert found.metres_per_px == pytest.approx(0.0123)
    assert found.relative_error == pytest.approx(0.02)


def test_without_any_vote_the_scale_is_unknown():
    with pytest.raises(ScaleUnknown):
        consensus([])


@pytest.mark.parametrize("says", [(0.0, 0.01), (0.01, 0.0)])
def test_a_figure_of_nothing_is_refused(says):
    with pytest.raises(ScaleUnknown):
        Option(metres_per_px=says[0], relative_error=says[1])


@given(st.lists(st.floats(0.005, 0.02), min_size=1, max_size=12), st.floats(0.1, 10.0))
def test_a_picture_twice_as_large_has_half_the_scale(scales, factor):
    before = consensus([printed(scale) for scale in scales])
    after = consensus([printed(scale * factor) for scale in scales])

    assert after.metres_per_px == pytest.approx(before.metres_per_px * factor, rel=1e-6)
    assert min(scales) <= before.metres_per_px * (1 + 1e-9)
    assert before.metres_per_px <= max(scales) * (1 + 1e-9)
