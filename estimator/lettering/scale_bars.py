"""Scale bars, found by the even numbers that stand along them."""

from collections.abc import Iterable

import numpy as np
from attrs import frozen

from estimator.lettering.labels import Label, Mark, WallLength
from estimator.measures import Metres

_FEWEST_MARKS = 3
_OFF_RULE = 0.15  # of the space between two marks


@frozen(kw_only=True)
class Bar:
    """So many metres of site over so many pixels, lettered in letters of that height."""

    length: Metres
    length_px: float
    letter_px: float


def scale_bar(labels: Iterable[Label]) -> Bar | None:
    """Return the scale bar whose marks stand evenly in a row, the last one with its unit.

    Marks that were not read leave a gap; three that fit one rule are asked for.
    """
    found = tuple(labels)
    marks = [label for label in found if isinstance(label, Mark)]
    bars = (_bar_ending(label, marks) for label in found if isinstance(label, WallLength))
    return next((bar for bar in bars if bar is not None), None)


def _bar_ending(end: WallLength, marks: list[Mark]) -> Bar | None:
    """Return the bar whose last mark is a length, such as ``5 m``."""
    letter, way = end.line.letter_px, end.ways[0]
    unit = way.way.unit
    row = [
        (mark.number * unit, mark.line.centre_px[0])
        for mark in marks
        if abs(mark.line.centre_px[1] - end.line.centre_px[1]) <= 0.5 * letter
        and mark.line.centre_px[0] < end.line.centre_px[0]
        and mark.number * unit < way.value
    ]
    row.append((way.value, end.line.centre_px[0]))
    if len(row) < _FEWEST_MARKS:
        return None
    numbers, places = np.array(sorted(row)).T
    if np.any(np.diff(numbers) <= 0):
        return None
    step, first = np.polyfit(numbers, places, 1)
    spacing = step * float(np.min(np.diff(numbers)))
    off = float(np.max(np.abs(first + step * numbers - places)))
    if spacing <= 0 or off > _OFF_RULE * spacing + 0.3 * letter:
        return None
    # The last mark is lettered with its unit, so that its middle may stand off the mark itself.
    if len(row) > _FEWEST_MARKS:
        step, first = np.polyfit(numbers[:-1], places[:-1], 1)
    length = float(numbers[-1] - numbers[0])
    return Bar(length=length, length_px=length * float(step), letter_px=letter)
