"""What stands under a drawing: scale bar, legend, and the names of rooms shown by number."""

from collections.abc import Iterator, Sequence

from estimator.documents.lettering import shortened, width
from estimator.documents.palette import HAIRLINE, INK, MUTED, WHITE
from estimator.documents.reader import Reader
from estimator.documents.scene import Anchor, Area, Mark, Stroke, Words
from estimator.quantities import Units
from estimator.quantities.language import respelled

_FOOT = 0.3048
_MOST_LISTED = 60
"""So many numbered rooms are named under a drawing; a schedule lists them all."""

_STEPS = (1, 2, 5, 10, 20, 50, 100)


def caption(
    *,
    wide: float,
    top: float,
    size: float,
    per_metre: float | None,
    units: Units,
    legend: Sequence[tuple[str, str]],
    key: Sequence[str],
    reader: Reader | None = None,
) -> tuple[list[Mark], float]:
    """Return the marks under a drawing and where they end.

    Parameters
    ----------
    legend
        Colours with what they say.
    key
        Numbered rooms, such as "3 Linen".
    reader
        Whose language it is in; English where none is given.
    """
    reader = reader or Reader(units=units)
    marks: list[Mark] = []
    left = 0.0
    base = top + 1.2 * size
    if per_metre:
        bar = list(_scale_bar(per_metre, base, size, reader, wide))
        marks += bar
        left = max(mark.x for mark in bar if isinstance(mark, Words)) + 4 * size
    base = _flow(marks, legend, left, base, wide, size)
    if key:
        listed = [("", text) for text in key[:_MOST_LISTED]]
        if len(key) > _MOST_LISTED:
            more = reader.number(len(key) - _MOST_LISTED)
            listed.append(("", reader.say("drawing", "more", count=more)))
        base = _flow(marks, listed, 0.0, base + 1.7 * size, wide, size)
    return marks, base + 0.6 * size


def _flow(
    marks: list[Mark],
    entries: Sequence[tuple[str, str]],
    left: float,
    base: float,
    wide: float,
    size: float,
) -> float:
    """Lay entries out in lines from the left edge given; return the last base line."""
    x = left
    for colour, text in entries:
        swatch = 1.5 * size if colour else 0.0
        text = shortened(text, wide - left - swatch, size)
        taken = swatch + width(text, size) + 1.4 * size
        if x > left and x + taken - 1.4 * size > wide:
            x, base = left, base + 1.55 * size
        if colour:
            marks += _swatch(colour, x, base, size)
        marks.append(
            Words(text=text, x=x + swatch, y=base, size=size, colour=MUTED, anchor=Anchor.START)
        )
        x += taken
    return base


def _swatch(colour: str, x: float, base: float, size: float) -> Iterator[Mark]:
    top, side = base - 0.85 * size, 1.05 * size
    ring = ((x, top), (x + side, top), (x + side, top + side), (x, top + side))
    yield Area(rings=(ring,), fill=colour)
    yield Stroke(points=(*ring, ring[0]), colour=HAIRLINE, width=0.07 * size)


def _scale_bar(
    per_metre: float, base: float, size: float, reader: Reader, wide: float
) -> Iterator[Mark]:
    """Yield a bar of two halves, about an eighth of the drawing long, and its lengths."""
    unit = per_metre if reader.units is Units.METRIC else per_metre * _FOOT
    steps = [step for step in _STEPS if step * unit <= wide / 4] or [1]
    step = min(steps, key=lambda step: abs(step * unit - wide / 7))
    length, high = step * unit, 0.45 * size
    top = base - high - 0.1 * size
    for half in (0, 1):
        x0, x1 = half * length / 2, (half + 1) * length / 2
        ring = ((x0, top), (x1, top), (x1, top + high), (x0, top + high))
        yield Area(rings=(ring,), fill=WHITE if half else INK)
        yield Stroke(points=(*ring, ring[0]), colour=INK, width=0.08 * size)
    shown = f"{step} m" if reader.units is Units.METRIC else f"{step} ft"
    words = respelled(shown, reader.language)
    x = length + 0.5 * size
    yield Words(text=words, x=x, y=base, size=size, colour=MUTED, anchor=Anchor.START)
