"""A drawing as a list of simple marks, before it becomes SVG, PDF or pixels.

Coordinates run to the right and down from the top left corner, in the unit of the scene's size.
"""

from collections.abc import Iterator
from enum import StrEnum

import shapely
from attrs import evolve, frozen
from shapely.geometry.base import BaseGeometry

type_path = tuple[tuple[float, float], ...]


class Anchor(StrEnum):
    """Which end of a line of text stands at its place."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@frozen(kw_only=True)
class Area:
    """A filled shape: its outer ring and its holes."""

    rings: tuple[type_path, ...]
    fill: str
    opacity: float = 1.0


@frozen(kw_only=True)
class Stroke:
    """A line through points."""

    points: type_path
    colour: str
    width: float
    dash: float = 0.0


@frozen(kw_only=True)
class Words:
    """One line of text; ``y`` is its base line."""

    text: str
    x: float
    y: float
    size: float
    colour: str
    bold: bool = False
    anchor: Anchor = Anchor.MIDDLE


Mark = Area | Stroke | Words


@frozen(kw_only=True)
class Scene:
    """Marks in the order they are laid down."""

    width: float
    height: float
    marks: tuple[Mark, ...]


def areas(shape: BaseGeometry, fill: str, opacity: float = 1.0) -> Iterator[Area]:
    """Yield every polygon of a shape, filled."""
    for part in shapely.get_parts(shape):
        if part.geom_type == "Polygon" and not part.is_empty:
            rings = (part.exterior, *part.interiors)
            yield Area(rings=tuple(map(path, rings)), fill=fill, opacity=opacity)


def strokes(shape: BaseGeometry, colour: str, width: float, dash: float = 0.0) -> Iterator[Stroke]:
    """Yield every line of a shape."""
    for part in shapely.get_parts(shape):
        if part.geom_type in {"LineString", "LinearRing"} and not part.is_empty:
            yield Stroke(points=path(part), colour=colour, width=width, dash=dash)


def path(line: BaseGeometry) -> type_path:
    """Return the points of a line."""
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(line))


def moved(mark: Mark, right: float, down: float = 0.0) -> Mark:
    """Return a mark moved."""
    if isinstance(mark, Words):
        return evolve(mark, x=mark.x + right, y=mark.y + down)
    if isinstance(mark, Stroke):
        return evolve(mark, points=tuple((x + right, y + down) for x, y in mark.points))
    return evolve(
        mark, rings=tuple(tuple((x + right, y + down) for x, y in ring) for ring in mark.rings)
    )
