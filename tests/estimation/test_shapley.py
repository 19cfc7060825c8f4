"""Shapley's value against textbook games and the four properties that define it.

Glove game: Osborne & Rubinstein, A Course in Game Theory (1994), ch. 14 (from memory). Airport
game: Littlechild & Owen, A simple expression for the Shapley value in a special case, Management
Science 20 (1973), 370-372: those who need a step of the costs share it evenly; the example of four
aircraft as encyclopaedias print it.
"""

from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.estimation.shapley import in_whole, shapley

amounts = st.integers(-10_000, 10_000)
games = st.integers(1, 5).flatmap(
    lambda players: st.lists(amounts, min_size=2**players, max_size=2**players)
)


def swapped(mask, one, other):
    """The coalition with two players in each other's place."""
    differ = (mask >> one ^ mask >> other) & 1
    return mask ^ (differ << one | differ << other)


def test_the_one_right_glove_takes_two_thirds():
    pair = [int(bool(mask & 0b011) and bool(mask & 0b100)) for mask in range(8)]
    assert shapley(pair) == (Fraction(1, 6), Fraction(1, 6), Fraction(2, 3))


def test_a_runway_for_four_aircraft_is_paid_for_as_published():
    costs = [8, 11, 13, 18]
    runway = [max([0, *(c for at, c in enumerate(costs) if mask >> at & 1)]) for mask in range(16)]
    assert shapley(runway) == (2, 3, 4, 9)


def test_every_step_of_a_runway_is_shared_by_those_who_need_it():
    costs = [12, 30, 30, 75, 160]
    runway = [
        max((cost for at, cost in enumerate(costs) if mask >> at & 1), default=0)
        for mask in range(32)
    ]
    shares, before = [], 0
    share = Fraction(0)
    for at, cost in enumerate(costs):
        share += Fraction(cost - before, len(costs) - at)
        before = cost
        shares.append(share)
    assert shapley(runway) == tuple(shares)


@given(games)
def test_shares_are_what_each_adds_averaged_over_all_orders(worth):
    players = len(worth).bit_length() - 1
    added = [0] * players
    orders = list(permutations(range(players)))
    for order in orders:
        mask = 0
        for player in order:
            added[player] += worth[mask | 1 << player] - worth[mask]
            mask |= 1 << player
    assert shapley(worth) == tuple(Fraction(total, len(orders)) for total in added)


@given(games)
def test_shares_add_up_to_what_all_are_worth_together(worth):
    assert sum(shapley(worth)) == worth[-1] - worth[0]


@given(games, st.data())
def test_players_who_trade_places_trade_shares(worth, data):
    players = len(worth).bit_length() - 1
    one, other = (data.draw(st.integers(0, players - 1)) for _ in range(2))
    traded = [worth[swapped(mask, one, other)] for mask in range(len(worth))]
    expected = list(shapley(worth))
    expected[one], expected[other] = expected[other], expected[one]
    assert shapley(traded) == tuple(expected)


@given(games, st.data())
def test_a_player_who_never_adds_anything_gets_nothing(worth, data):
    bit = 1 << data.draw(st.integers(0, len(worth).bit_length() - 2))
    idle = [worth[mask & ~bit] for mask in range(len(worth))]
    assert shapley(idle)[bit.bit_length() - 1] == 0


@given(games, st.data())
def test_the_shares_in_two_games_add(worth, data):
    other = data.draw(st.lists(amounts, min_size=len(worth), max_size=len(worth)))
    both = [here + there for here, there in zip(worth, other, strict=True)]
    together = zip(shapley(worth), shapley(other), strict=True)
    assert shapley(both) == tuple(here + there for here, there in together)


@given(games)
def test_whole_shares_add_up_and_lie_within_one_of_the_exact_ones(worth):
    exact = shapley(worth)
    whole = in_whole(exact)
    assert sum(whole) == worth[-1] - worth[0]
    assert all(abs(one - other) < 1 for one, other in zip(whole, exact, strict=True))


@given(games)
def test_the_way_back_is_the_way_there_with_its_signs_turned(worth):
    everything = len(worth) - 1
    back = [worth[everything & ~mask] for mask in range(len(worth))]
    assert in_whole(shapley(back)) == tuple(-share for share in in_whole(shapley(worth)))


def test_shares_of_a_broken_whole_are_refused():
    with pytest.raises(ValueError, match="no whole number"):
        in_whole([Fraction(1, 2), Fraction(1, 3)])
