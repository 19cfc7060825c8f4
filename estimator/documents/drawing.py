"""The plan drawing: walls, openings, rooms coloured and named, scale bar and legend."""

from collections.abc import Iterator, Mapping, Sequence

import shapely
from shapely.geometry import Polygon

from estimator.documents.caption import caption
from estimator.documents.colouring import ColourBy, Colouring, colouring
from estimator.documents.figure import Figure, Shape, fitted
from estimator.documents.labels import LEADING, Label, centred, label
from estimator.documents.lettering import legible
from estimator.documents.openings import gap_marks, swept, swing_marks
from estimator.documents.palette import DOUBT, INK, MUTED, WHITE, text_on
from estimator.documents.reader import Reader
from estimator.documents.scene import Mark, Scene, Words, areas, moved, strokes
from estimator.documents.svg import svg
from estimator.measures import Share
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.quantities import Units, shown_length
from estimator.quantities.language import respelled
from estimator.quote.quote import Quote

DOUBTFUL: Share = 0.6
"""Rooms less sure than this are marked."""

_SCREEN = (1000.0, 640.0)
_SCREEN_TEXT = 17.0


def plan_svg(
    plan: Plan,
    quote: Quote | None,
    units: Units,
    storey: int = 0,
    *,
    by: ColourBy | None = None,
) -> str:
    """Return one storey as an SVG drawing, coloured by strength when there is a quote."""
    width, height = _SCREEN
    scene = plan_scene(
        plan, quote, units, storey, width=width, height=height, text=_SCREEN_TEXT, by=by
    )
    name = legible(plan.title) or "Plan"
    storey_name = legible(next((s.name for s in plan.storeys if s.number == storey), ""))
    return svg(scene, f"{name}, {storey_name}" if storey_name else name)


def plan_scene(
    plan: Plan,
    quote: Quote | None,
    units: Units,
    storey: int,
    *,
    width: float,
    height: float,
    text: float,
    by: ColourBy | None = None,
    reader: Reader | None = None,
) -> Scene:
    """Return the drawing of one storey, in English where no reader is given.

    Parameters
    ----------
    width, height
        The most its rooms may take; scale bar and legend stand below.
    text
        Size of the largest letters.
    """
    reader = reader or Reader(units=units)
    figure = fitted(plan, storey, width, height)
    if not figure.shapes:
        nothing = reader.say("drawing", "nothing")
        words = Words(text=nothing, x=width / 2, y=2 * text, size=text, colour=MUTED)
        return Scene(width=width, height=4 * text, marks=(words,))
    by = by or (ColourBy.STRENGTH if quote else ColourBy.USE)
    colours = colouring(plan, quote, by, storey, reader)
    line = text / 12
    left = (width - figure.width) / 2
    labelled, key = _labels(figure, colours, reader, text)
    below, bottom = caption(
        wide=width - left,
        top=figure.height + 0.9 * text,
        size=0.76 * text,
        per_metre=figure.per_metre,
        units=units,
        legend=[*colours.legend, *_doubt_legend(figure, reader)],
        key=key,
        reader=reader,
    )
    marks = [
        *areas(figure.walls, INK),
        *gap_marks(figure, line),
        *room_marks(figure, colours.fills, line),
        *swing_marks(figure, colours.fills, line),
        *labelled,
        *below,
    ]
    return Scene(width=width, height=bottom, marks=tuple(moved(mark, left) for mark in marks))


def room_marks(figure: Figure, fills: Mapping[str, str], line: float) -> Iterator[Mark]:
    """Yield the floors of the rooms and the lines around them."""
    for shape in figure.shapes:
        yield from areas(shape.outline, fills.get(shape.room.id, WHITE))
    for shape in figure.shapes:
        if shape.room.confidence < DOUBTFUL:
            inner = shapely.buffer(shape.outline, -2.5 * line, join_style="mitre")
            yield from strokes(inner.boundary, DOUBT, 2 * line, dash=5 * line)
        open_floor = shapely.union_all(
            [
                shapely.buffer(gap.line, 0.6 * line, cap_style="flat")
                for gap in shape.gaps
                if gap.kind is not OpeningKind.WINDOW
            ]
        )
        yield from strokes(shape.outline.boundary.difference(open_floor), INK, line)


def _labels(
    figure: Figure, colours: Colouring, reader: Reader, text: float
) -> tuple[list[Mark], list[str]]:
    """Return the words in the rooms, and the names of those shown by a number."""
    marks: list[Mark] = []
    key: list[str] = []
    doors = swept(figure)
    for shape in sorted(figure.shapes, key=lambda shape: shape.outline.bounds[:2]):
        name = legible(shape.room.name)
        colour = text_on(colours.fills.get(shape.room.id, WHITE))
        inner = shapely.buffer(shape.outline, -0.2 * text, join_style="mitre")
        facts = _facts(shape, reader)
        found = None
        for free in (inner.difference(doors), inner):
            if free.area > 0 and (found := label(_largest(free), name, facts, text)):
                break
        if found is None and name:
            key.append(f"{len(key) + 1}  {', '.join([name, *facts[:1]])}")
            found = centred(shape.outline, str(len(key)), 0.72 * text)
        if found:
            marks += _words(found, colour)
            marks += _spots(found, colours.spots.get(shape.room.id, ()), text)
    return marks, key


def _largest(shape: shapely.Geometry) -> Polygon:
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, Polygon)]
    return max(parts, key=lambda part: part.area)


def _facts(shape: Shape, reader: Reader) -> list[str]:
    """Return the area and, of a rectangular room, its sides."""
    outline = shape.room.outline
    if outline is None:
        return []
    facts = [reader.area(outline.area)]
    box = outline.minimum_rotated_rectangle
    if outline.area > 0.97 * box.area:
        corners = shapely.get_coordinates(box)
        sides = [
            shapely.Point(corners[at]).distance(shapely.Point(corners[at + 1])) for at in (0, 1)
        ]
        across = abs(corners[1][0] - corners[0][0]) >= abs(corners[1][1] - corners[0][1])
        wide, deep = sides if across else reversed(sides)
        facts.append(respelled(sides_words(wide, deep, reader.units), reader.language))
    return facts


def sides_words(wide: float, deep: float, units: Units) -> str:
    """Return the two sides of a room, the unit said once where it can be.

    >>> sides_words(4.2, 3.05, Units.METRIC)
    '4.2 × 3.05 m'
    """
    first, second = shown_length(wide, units), shown_length(deep, units)
    return f"{first.removesuffix(' m')} × {second}"


def _words(found: Label, colour: str) -> Iterator[Words]:
    y = found.y - found.height / 2
    for line in found.lines:
        y += line.size * LEADING
        yield Words(
            text=line.text,
            x=found.x,
            y=y - 0.34 * line.size,
            size=line.size,
            colour=colour,
            bold=line.bold,
        )


def _spots(found: Label, spots: Sequence[str], text: float) -> Iterator[Mark]:
    """Yield a dot under the words for each further strength used in the room."""
    radius = 0.26 * text
    y = found.y + found.height / 2 + radius
    for at, colour in enumerate(spots):
        x = found.x + (at - (len(spots) - 1) / 2) * 3 * radius
        yield from areas(shapely.Point(x, y).buffer(1.35 * radius), WHITE)
        yield from areas(shapely.Point(x, y).buffer(radius), colour)


def _doubt_legend(figure: Figure, reader: Reader) -> list[tuple[str, str]]:
    doubtful = any(shape.room.confidence < DOUBTFUL for shape in figure.shapes)
    return [(DOUBT, reader.say("drawing", "doubtful"))] if doubtful else []
