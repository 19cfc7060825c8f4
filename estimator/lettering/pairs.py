"""Sizes lettered twice, in metres and in feet, made one; lost units settled by the whole sheet."""

from collections.abc import Sequence

from attrs import evolve

from estimator.lettering.labels import Label, RoomSize
from estimator.lettering.lengths import Way
from estimator.lettering.line import Line, around
from estimator.lettering.sizes import Sizes, agreeing

# Lines of one label stand so close, in heights of their letters.
_SAME_LABEL = 1.5
# A way of lettering is clear when it could hardly be another.
_CLEAR = 0.8
_OTHER_WAY = 0.2


def settled(labels: Sequence[Label]) -> tuple[Label, ...]:
    """Return the labels with sizes given twice joined, and doubtful ones read as the clear ones."""
    paired = _paired([label for label in labels if isinstance(label, RoomSize)])
    likeliest = [label.sizes.likeliest for label in paired]
    clear = {size.way for size in likeliest if size.likelihood >= _CLEAR}
    others = (label for label in labels if not isinstance(label, RoomSize))
    return *others, *(_in_the_clear_way(label, clear) for label in paired)


def _paired(found: list[RoomSize]) -> list[RoomSize]:
    paired, waiting = [], list(found)
    while waiting:
        label = waiting.pop(0)
        for other in sorted(waiting, key=lambda other: gap_px(label.line, other.line)):
            near = gap_px(label.line, other.line) <= _SAME_LABEL * label.line.letter_px
            if near and (same := agreeing(label.sizes, other.sizes)):
                waiting.remove(other)
                both = evolve(label.line, box_px=around([label.line, other.line]))
                label = RoomSize(line=both, sizes=same)
                break
        paired.append(label)
    return paired


def _in_the_clear_way(label: RoomSize, clear: set[Way]) -> RoomSize:
    """Return a doubtful size with the ways the sheet does not use made unlikely."""
    if not clear or label.sizes.likeliest.likelihood >= _CLEAR:
        return label
    ways = [
        size if size.way in clear else evolve(size, likelihood=_OTHER_WAY * size.likelihood)
        for size in label.sizes.ways
    ]
    return evolve(label, sizes=Sizes(ways=ways))


def gap_px(one: Line, other: Line) -> float:
    """Return the distance between the boxes of two lines; 0 when they overlap."""
    left, top, right, bottom = one.box_px
    left_, top_, right_, bottom_ = other.box_px
    across = max(0.0, left_ - right, left - right_)
    down = max(0.0, top_ - bottom, top - bottom_)
    return max(across, down)
