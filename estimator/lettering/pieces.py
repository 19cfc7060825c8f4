"""Sizes that were seen as two lines beside each other, put together again."""

from collections.abc import Iterable

from attrs import evolve

from estimator.lettering.line import Line, around
from estimator.lettering.sizes import sizes

# In heights of letters: how far apart pieces of one line stand, and how far off its level.
_WIDEST_GAP = 1.2
_OFF_LEVEL = 0.4


def together(lines: Iterable[Line]) -> tuple[Line, ...]:
    """Return the lines with pieces that only together are a size joined.

    Examples
    --------
    >>> pieces = (Line(text="4,25", box_px=(0, 0, 30, 10)),
    ...           Line(text="x 3,25", box_px=(36, 0, 80, 10)))
    >>> [line.text for line in together(pieces)]
    ['4,25 x 3,25']
    """
    waiting = sorted(lines, key=lambda line: line.box_px[0])
    found: list[Line] = []
    while waiting:
        line = waiting.pop(0)
        for other in waiting:
            joined = f"{line.text} {other.text}"
            if _follows(line, other) and sizes(joined) and not _is_size(line, other):
                waiting.remove(other)
                line = evolve(
                    line,
                    text=joined,
                    box_px=around([line, other]),
                    confidence=min(line.confidence, other.confidence),
                )
                break
        found.append(line)
    return tuple(found)


def _is_size(*lines: Line) -> bool:
    return any(sizes(line.text) for line in lines)


def _follows(line: Line, other: Line) -> bool:
    """Tell whether another line stands behind a line on its level."""
    if line.is_vertical or other.is_vertical or line.slanted_px or other.slanted_px:
        return False
    letter = max(line.letter_px, other.letter_px)
    gap = other.box_px[0] - line.box_px[2]
    level = abs(line.centre_px[1] - other.centre_px[1])
    return -0.5 * letter <= gap <= _WIDEST_GAP * letter and level <= _OFF_LEVEL * letter
