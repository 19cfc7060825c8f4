import math

import pytest

from estimator.visit.clearing import clearing_time

# CDC, MMWR 43(RR-13), 1994, Table S3-1; CDC 2003, Environmental Infection Control, Appendix B,
# Table B.1. Minutes to remove 90, 99 and 99.9 %, by air changes per hour.
TABLE = {
    1: (138, 276, 414),
    2: (69, 138, 207),
    3: (46, 92, 138),
    4: (35, 69, 104),
    5: (28, 55, 83),
    6: (23, 46, 69),
    7: (20, 39, 59),
    8: (17, 35, 52),
    9: (15, 31, 46),
    10: (14, 28, 41),
    11: (13, 25, 38),
    12: (12, 23, 35),
    13: (11, 21, 32),  # a government copy prints 3 for 32
    14: (10, 20, 30),
    15: (9, 18, 28),
    16: (9, 17, 26),
    17: (8, 16, 24),
    18: (8, 15, 23),
    19: (7, 15, 22),
    20: (7, 14, 21),
    25: (6, 11, 17),
    30: (5, 9, 14),
    35: (4, 8, 12),
    40: (3, 7, 10),
    45: (3, 6, 9),
    50: (3, 6, 8),
}


def minutes(removal: float, air_changes: float) -> int:
    """Minutes rounded half up, as the table prints them."""
    return math.floor(clearing_time(removal, air_changes / 3600) / 60 + 0.5)


def test_the_table_is_whole():
    assert len(TABLE) == 26


@pytest.mark.parametrize("air_changes", TABLE)
def test_clearing_is_that_of_the_cdc_table(air_changes):
    assert tuple(minutes(share, air_changes) for share in (0.9, 0.99, 0.999)) == TABLE[air_changes]


@pytest.mark.parametrize(  # arithmetic on the old ASHRAE minimum for homes, quoted by the US EPA
    ("removal", "expected"), [(0.99, 789), (0.999, 1184)]
)
def test_a_home_at_the_old_minimum_takes_half_a_day(removal, expected):
    assert minutes(removal, 0.35) == expected


@pytest.mark.parametrize(  # arithmetic on air changes of ASHRAE 62.1 and of CDC 2023
    ("air_changes", "expected"),
    [
        (0.57, (485, 727)),  # offices: 17 cfm a person, 5 on 1000 ft², 9 ft high
        (2.5, (111, 166)),  # classrooms
        (5, (55, 83)),  # CDC's aim for rooms that are shared
    ],
)
def test_usual_rooms_take_hours(air_changes, expected):
    assert tuple(minutes(share, air_changes) for share in (0.99, 0.999)) == expected


def test_imperfect_mixing_slows_clearing():
    assert clearing_time(0.99, 1.0, 10.0) == pytest.approx(10 * clearing_time(0.99, 1.0))
