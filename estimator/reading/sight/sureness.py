"""How sure an opening is, so that of those said to be nine tenths sure nine in ten are right.

Two logistics (Platt 1999). Of a door or window it takes the log odds that its pixels show its class
on average, its width in wall thicknesses up to four, how far a door is told from a passage, and
which of the two it is. A gap with no leaf is a passage when it is wide; one as wide as a door may
be a door drawn without its leaf, however clearly it is seen. They were fitted to 5,194 doors and
windows read from 120 drawings with known openings, and to 609 passages of these and of 120 drawings
in manners held out from training; right are those that lie along most of a true opening of their
kind and it along most of them. How far it holds on other drawings is printed by
``tests/benchmarks/bench_plans.py``.
"""

import math

from estimator.measures import Share
from estimator.plan.opening import OpeningKind

_LEAF, _LEAF_ODDS, _LEAF_WIDTH, _LEAF_KIND, _WINDOW = -3.6, 1.89, 1.51, 3.99, -0.67
_GAP, _GAP_WIDTH, _GAP_KIND = -3.45, 2.24, 1.71
# Openings narrower or wider than so many wall thicknesses count as so wide.
_NARROW, _WIDE, _WIDE_GAP = 0.5, 4.0, 16.0
# No network is surer than this of all pixels of an opening.
_NEVER_SURE = 0.001


def opening_sureness(
    kind: OpeningKind, share: Share, width_px: float, wall_px: float, kind_share: Share
) -> Share:
    """Return how sure an opening is.

    Parameters
    ----------
    share
        How far its pixels show its class, on average.
    kind_share
        How far they show that it is of its kind, and not of another of that class; above 0.

    Examples
    --------
    >>> round(opening_sureness(OpeningKind.DOOR, 0.97, 30, 6, 1.0), 2)
    0.99
    >>> round(opening_sureness(OpeningKind.WINDOW, 0.75, 9, 6, 1.0), 2)
    0.17
    >>> [round(opening_sureness(OpeningKind.PASSAGE, 0.97, px, 6, 0.9), 2) for px in (30, 90)]
    [0.49, 0.92]
    """
    width = max(_NARROW, width_px / wall_px)
    if kind is OpeningKind.PASSAGE:
        score = _GAP + _GAP_WIDTH * math.log(min(width, _WIDE_GAP))
        score += _GAP_KIND * math.log(kind_share)
    else:
        score = _LEAF + _LEAF_ODDS * math.log(share / (1 - share + _NEVER_SURE))
        score += _LEAF_WIDTH * math.log(min(width, _WIDE)) + _LEAF_KIND * math.log(kind_share)
        score += _WINDOW * (kind is OpeningKind.WINDOW)
    return 1 / (1 + math.exp(-score))
