"""The statistical model against conjugate closed forms, dense algebra and scipy."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from estimator.estimation.pooling import AS_NORMAL, TAILS, Prior, pooled

PRIOR = Prior(centre=0.12, group=0.2, between=0.2, within=0.3)
KNOWN = {"tails": np.inf, "worth": np.inf}


def test_one_group_of_one_visit_each_is_shrunk_by_the_closed_form():
    """Normal mean, known variance: Gelman et al., Bayesian Data Analysis, section 2.5."""
    values = [0.4, 0.1, 0.3]
    told = pooled(values, [0, 1, 2], [None] * 3, PRIOR, **KNOWN)
    variance = PRIOR.between**2 + PRIOR.within**2
    precision = 1 / PRIOR.centre**2 + len(values) / variance
    assert told.centre == pytest.approx(sum(values) / variance / precision)
    assert told.deviation == pytest.approx(precision**-0.5)


records = st.lists(
    st.tuples(st.floats(-1, 1), st.integers(0, 3), st.sampled_from([None, 0, 1, 2])),
    min_size=1,
    max_size=15,
)


@given(records)
def test_known_scales_give_the_conjugate_posterior_of_dense_algebra(rows):
    """The joint normal of centre, groups and records, conditioned on the records."""
    values, visits, groups = zip(*rows, strict=True)
    told = pooled(values, visits, groups, PRIOR, **KNOWN)
    count = 1 + len(told.groups)
    effects = np.diag([PRIOR.centre**2, *[PRIOR.group**2] * (count - 1)])
    design = np.zeros((len(rows), count))
    design[:, 0] = 1
    for row, group in enumerate(groups):
        if group is not None:
            design[row, 1 + group] = 1
    same_visit = np.equal.outer(visits, visits)
    noise = PRIOR.between**2 * same_visit + PRIOR.within**2 * np.eye(len(rows))
    gain = effects @ design.T @ np.linalg.inv(design @ effects @ design.T + noise)
    mean = gain @ np.array(values)
    covariance = effects - gain @ design @ effects
    assert told.centre == pytest.approx(mean[0], abs=1e-9)
    assert told.groups == pytest.approx(mean[0] + mean[1:], abs=1e-9)
    assert told.deviation == pytest.approx(covariance[0, 0] ** 0.5)
    both = covariance[0, 0] + 2 * covariance[0, 1:] + np.diag(covariance)[1:]
    assert told.group_deviations == pytest.approx(both**0.5)


def test_nothing_recorded_leaves_the_book_as_it_is():
    told = pooled([], [], [], PRIOR)
    assert (told.centre, told.deviation) == (0, pytest.approx(PRIOR.centre))


def test_a_normal_of_the_next_visit_has_the_tenths_of_its_t():
    ratio = stats.t.ppf(0.9, TAILS) / stats.norm.ppf(0.9)
    assert pytest.approx(ratio, rel=1e-4) == AS_NORMAL


def test_centre_and_scales_of_a_firm_are_found_again():
    rng = np.random.default_rng(1)
    visits = np.repeat(np.arange(200), 6)
    drawn = 0.25 + 0.15 * rng.standard_t(TAILS, 200)[visits] + 0.1 * rng.standard_t(TAILS, 1200)
    told = pooled(drawn.tolist(), visits.tolist(), [None] * 1200, PRIOR)
    assert told.centre == pytest.approx(0.25, abs=3 * told.deviation)
    assert told.between == pytest.approx(0.15, rel=0.2)
    assert told.within == pytest.approx(0.1, rel=0.1)
    fitted = stats.t.fit(drawn[::6], fdf=TAILS)
    assert told.centre == pytest.approx(fitted[1], abs=0.03)


def test_a_use_with_few_records_is_pulled_to_the_firm_more_than_one_with_many():
    values = [0.0] * 20 + [0.5] + [0.5] * 12
    groups = [0] * 20 + [1] + [2] * 12
    visits = list(range(len(values)))
    told = pooled(values, visits, groups, PRIOR)
    assert told.groups[0] < told.groups[1] < told.groups[2] < 0.5


@settings(max_examples=20)
@given(st.floats(3, 9) | st.floats(-9, -3))
def test_one_absurd_record_moves_the_centre_little(absurd):
    values = [0.1, 0.2, 0.15, 0.05, 0.12, 0.18, 0.11, 0.16, 0.09]
    visits = [0, 0, 0, 1, 1, 1, 2, 2, 2]
    groups = [0, 1, 0, 1, 0, 1, 0, 1, 0]
    fair = pooled(values, visits, groups, PRIOR)
    spoilt = pooled([*values, absurd], [*visits, 2], [*groups, 1], PRIOR)
    assert abs(spoilt.centre - fair.centre) < 0.03
    assert spoilt.weights[-1] < 0.1 * min(spoilt.weights[:-1])


def test_one_absurd_visit_moves_the_centre_little():
    values = [0.1, 0.2, 0.15, 0.05, 0.12, 0.18, 0.11, 0.16, 0.09, 4.1, 4.0, 4.2]
    visits = [0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3]
    fair = pooled(values[:9], visits[:9], [None] * 9, PRIOR)
    spoilt = pooled(values, visits, [None] * 12, PRIOR)
    assert abs(spoilt.centre - fair.centre) < 0.05
    assert spoilt.visit_weights[3] < 0.1


@given(records)
def test_the_order_of_the_records_does_not_matter(rows):
    values, visits, groups = zip(*rows, strict=True)
    backward = [list(reversed(each)) for each in (values, visits, groups)]
    here, there = pooled(values, visits, groups, PRIOR), pooled(*backward, PRIOR)
    assert there.centre == pytest.approx(here.centre, abs=1e-7)
