"""The Shapley value: what each of several causes adds, whatever order they are taken in.

A player's share is what it adds to those before it, averaged over all orders of all players [1]_.
No other rule adds up to the whole, treats alike players alike, gives nothing to one that never adds
anything, and adds over games. Whole amounts stay exact fractions; no order is drawn by chance.

References
----------
.. [1] Shapley, A value for n-person games, Contributions to the Theory of Games II (1953), 307-317.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import factorial


def shapley(worth: Sequence[int]) -> tuple[Fraction, ...]:
    """Return the share of each player in what all are worth together.

    Parameters
    ----------
    worth
        What each coalition is worth, at the number whose bits are its players; 2 ** players of
        them, the first for nobody.

    Examples
    --------
    Two who have a left glove and one who has the right one, a pair being worth 6:

    >>> [str(share) for share in shapley([0, 0, 0, 0, 0, 6, 6, 6])]
    ['1', '1', '4']
    """
    players = len(worth).bit_length() - 1
    orders = [factorial(size) * factorial(players - 1 - size) for size in range(players)]
    shares = []
    for player in range(players):
        bit = 1 << player
        added = sum(
            orders[before.bit_count()] * (worth[before | bit] - worth[before])
            for before in range(len(worth))
            if not before & bit
        )
        shares.append(Fraction(added, factorial(players)))
    return tuple(shares)


def in_whole(shares: Sequence[Fraction]) -> tuple[int, ...]:
    """Return whole numbers that add up as the shares do, none further from its share than it must.

    Shares are rounded, and what is then missing goes to those that lost most by it.

    Raises
    ------
    ValueError
        When the shares do not add up to a whole number.

    Examples
    --------
    >>> in_whole([Fraction(1, 3), Fraction(1, 3), Fraction(4, 3)])
    (1, 0, 1)
    """
    total = sum(shares, Fraction(0))
    if total.denominator != 1:
        raise ValueError(f"the shares add up to {total}, which is no whole number")
    whole = [round(share) for share in shares]
    missing = int(total) - sum(whole)
    step = 1 if missing > 0 else -1
    lost = sorted(range(len(shares)), key=lambda at: step * (whole[at] - shares[at]))
    for at in lost[: abs(missing)]:
        whole[at] += step
    return tuple(whole)
