"""A line of lettering and where it stands."""

from attrs import frozen

from estimator.measures import Share, checked
from estimator.plan.opening import Point

Box = tuple[float, float, float, float]
"""Left, top, right and bottom in pixels of the picture."""


@frozen(kw_only=True, field_transformer=checked)
class Line:
    """Words that stand in one line.

    Parameters
    ----------
    box_px
        The upright box around it.
    is_vertical
        Whether it runs up or down the page.
    slanted_px
        How high it is across its slant; None for a line that runs along the page or up it.
    confidence
        How sure its letters are; 1 when the file holds them as text.
    """

    text: str
    box_px: Box
    is_vertical: bool = False
    slanted_px: float | None = None
    confidence: Share = 1.0

    @property
    def centre_px(self) -> Point:
        """The middle of its box."""
        left, top, right, bottom = self.box_px
        return (left + right) / 2, (top + bottom) / 2

    @property
    def letter_px(self) -> float:
        """The height of its letters."""
        if self.slanted_px is not None:
            return self.slanted_px
        left, top, right, bottom = self.box_px
        return right - left if self.is_vertical else bottom - top


def around(lines: "list[Line] | tuple[Line, ...]") -> Box:
    """Return the box around several lines."""
    lefts, tops, rights, bottoms = zip(*(line.box_px for line in lines), strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)
