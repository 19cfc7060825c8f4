"""How sure an opening is, so that of those said to be nine tenths sure nine in ten are right.

A logistic of three things: how far its pixels show its class on average, its width in wall
thicknesses, up to four, and how far they tell a door from a passage. It was fitted to 2,356
openings read from 50 drawings with known openings, right being those that lie along most of a true
opening of their kind and it along most of them; on 60 other drawings, in styles held out from
training, 0.98 of those said to be 0.9 sure were right. How far it holds is printed by
``tests/benchmarks/bench_plans.py``.
"""

import math

from estimator.measures import Share

_CONSTANT, _PER_SHARE, _PER_WIDTH, _PER_KIND = -10.9, 14.0, 0.9, 4.6
_WIDE = 4.0


def opening_sureness(share: Share, width_px: float, wall_px: float, kind_share: Share) -> Share:
    """Return how sure an opening is.

    Parameters
    ----------
    share
        How far its pixels show its class, on average.
    kind_share
        How far they show that it is of its kind, and not of another of that class; above 0.

    Examples
    --------
    >>> round(opening_sureness(0.97, 30, 6, 1.0), 2), round(opening_sureness(0.75, 9, 6, 1.0), 2)
    (0.98, 0.49)
    >>> round(opening_sureness(0.97, 30, 6, 0.5), 2)
    0.68
    """
    width = max(0.5, min(_WIDE, width_px / wall_px))
    odds = (
        _CONSTANT
        + _PER_SHARE * share
        + _PER_WIDTH * math.log(width)
        + _PER_KIND * math.log(kind_share)
    )
    return 1 / (1 + math.exp(-odds))
