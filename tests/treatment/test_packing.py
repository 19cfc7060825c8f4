"""The packing of tanks against an exhaustive search."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from estimator.treatment.packing import packed


def best_by_trying_all(volumes: set[int], needed: int) -> tuple[int, int, int]:
    """Tanks, left over and tanks that are not full of the best way, by trying every one."""
    for tanks in itertools.count(1):
        ways = [
            (sum(way) - needed, sum(one != max(volumes) for one in way))
            for way in itertools.combinations_with_replacement(sorted(volumes), tanks)
            if sum(way) >= needed
        ]
        if ways:
            return tanks, *min(ways)
    raise AssertionError


@given(st.sets(st.integers(1, 40), min_size=1, max_size=7), st.integers(1, 160))
def test_no_other_way_has_fewer_tanks_less_left_over_or_more_full_tanks(volumes, needed):
    full = max(volumes)
    if needed > 5 * full:
        return
    tanks = packed(volumes, needed)

    found = (len(tanks), sum(tanks) - needed, sum(one != full for one in tanks))
    assert set(tanks) <= volumes
    assert found == best_by_trying_all(volumes, needed)


def test_hundreds_of_tanks_that_can_lack_little_are_packed():
    tanks = packed({1600, 1593}, 228 * 1600 - 1599)

    assert (len(tanks), sum(tanks)) == (228, 228 * 1600 - 7 * 228)
