"""Which paths of a PDF page may be its walls."""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TypeVar

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from estimator.errors import EstimatorError
from estimator.intake.drawings.gaps import Evidence
from estimator.intake.drawings.linework import THICKEST_WALL, Linework
from estimator.intake.drawings.pdf_paths import Colour, Mark, Run
from estimator.quantities.scales import drawing_scale
from estimator.reading.picture import Picture
from estimator.reading.scale import INCH, stated_scales

Shape = TypeVar("Shape", bound=BaseGeometry)

# In metres, common practice.
_USUAL_WALL = 0.16
_USUAL_DOOR = 0.8
_USUAL_SIDE = 10.0  # of a building, when nothing else tells
_THICK_STROKE = 0.05  # a stroke so thick is a wall by itself
_LEAST_SOLID = 0.03  # m²; less is lettering

_PAPER = 235  # luminance from which nothing is drawn
_UNLIKE = 110  # in luminance; outer and inner walls differ by less
_LIGHTER = 50  # luminance by which a later area hides an earlier one
_QUARTER = (0.88, 0.92)  # chord of a quarter circle to its length, 0.90
_LEAST_SWING = 0.008  # radius, to the longer side of the page
_MOST_SETS = 8  # tried as walls
_THIN = 3.0  # pixels; what is thinner is a line
_FEWEST = 6  # straight pieces of a set: two rooms have no fewer
_MOST = 4000  # more are hatching or paving


def wall_choices(marks: Sequence[Mark], picture: Picture) -> Iterator[Linework]:
    """Yield what may be the walls: areas and thick strokes of one colour, or strokes of one pen.

    They come in metres, of so many pixels as the drawing scale says; or else as doors, the
    thickness of walls or the extent of the building make likely.
    """
    metre = _stated_metre(picture) or _metre_by_doors(marks, picture)
    evidence = _evidence(marks)
    for solid in _solids(marks, metre):
        size = metre or 2 * solid.area / solid.length / _USUAL_WALL
        yield _linework(size, evidence, solids=_polygons(solid))
    for width, lines in _pens(marks):
        size = metre or _metre_by_extent(lines)
        if width < _THICK_STROKE * size:
            yield _linework(size, evidence, lines=lines)


def _linework(
    metre: float,
    evidence: tuple[list[LineString], list[LineString]],
    lines: Sequence[LineString] = (),
    solids: Sequence[Polygon] = (),
) -> Linework:
    """Bring lines and solids in pixels to metres."""

    def scaled(shapes: Sequence[Shape]) -> tuple[Shape, ...]:
        return tuple(shapely.transform(shape, lambda points: points / metre) for shape in shapes)

    curves, strokes = evidence
    return Linework(
        metre=metre,
        lines=scaled(lines),
        solids=tuple(solid for solid in scaled(solids) if solid.area >= _LEAST_SOLID),
        evidence=Evidence(curves=scaled(curves), strokes=scaled(strokes)),
    )


def _evidence(marks: Sequence[Mark]) -> tuple[list[LineString], list[LineString]]:
    """Return all curves and all straight strokes that are drawn."""
    inked = [mark for mark in marks if mark.stroke and _luminance(mark.stroke) < _PAPER]
    strokes = [
        LineString(pair)
        for mark in inked
        for run in mark.runs
        if not run.curves
        for pair in pairwise(run.points)
    ]
    return [curve for mark in inked for run in mark.runs for curve in run.curves], strokes


def _solids(marks: Sequence[Mark], metre: float | None) -> Iterator[BaseGeometry]:
    """Yield what colours cover: each that is thin as walls are, and those alike together."""
    thin: set[Colour] = set()
    for colour in _colours(marks):
        solid = _visible(marks, {colour}, metre)
        thickness = 2 * solid.area / solid.length if solid.length else 0.0
        if thickness < _THIN or (metre and thickness > THICKEST_WALL * metre):
            continue
        yield solid
        if any(abs(_luminance(colour) - _luminance(other)) > _UNLIKE for other in thin):
            continue
        thin.add(colour)
        if len(thin) > 1:
            yield _visible(marks, thin, metre)


def _stated_metre(picture: Picture) -> float | None:
    """Return pixels to a metre by the drawing scale printed on the page."""
    for text in stated_scales(picture):
        try:
            return (picture.dpi or 0.0) / (INCH * drawing_scale(text).ratio) or None
        except EstimatorError:
            continue
    return None


def _metre_by_doors(marks: Sequence[Mark], picture: Picture) -> float | None:
    """Return pixels to a metre by the usual width of doors, when swings are drawn."""
    least = _LEAST_SWING * max(picture.width_px, picture.height_px)
    radii = []
    for mark in marks:
        for run in mark.runs:
            if len(run.curves) == 1 and not mark.dashed:
                curve = run.curves[0]
                chord = math.dist(curve.coords[0], curve.coords[-1])
                is_quarter = _QUARTER[0] <= chord / curve.length <= _QUARTER[1]
                if is_quarter and chord / math.sqrt(2) >= least:
                    radii.append(chord / math.sqrt(2))
    return float(np.median(radii)) / _USUAL_DOOR if len(radii) > 1 else None


def _metre_by_extent(lines: Sequence[LineString]) -> float:
    left, top, right, bottom = shapely.total_bounds(list(lines)).tolist()
    return math.sqrt((right - left) * (bottom - top)) / _USUAL_SIDE or 1.0


def _colours(marks: Sequence[Mark]) -> list[Colour]:
    """Return the colours that cover most of the page, most first."""
    covered = Counter[Colour]()
    for mark in marks:
        for run in mark.runs:
            if mark.fill and _luminance(mark.fill) < _PAPER:
                covered[mark.fill] += round(LineString(run.points).envelope.area)
            if mark.stroke and _luminance(mark.stroke) < _PAPER:
                covered[mark.stroke] += round(LineString(run.points).length * mark.width_px)
    return [colour for colour, _ in covered.most_common(_MOST_SETS)]


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    return [part for part in shapely.get_parts(shape).tolist() if isinstance(part, Polygon)]


def _visible(marks: Sequence[Mark], colours: set[Colour], metre: float | None) -> BaseGeometry:
    """Return what is seen of areas and thick strokes in some colours, later areas over them."""
    least = (metre or 0.0) * _THICK_STROKE
    darkest = min(_luminance(colour) for colour in colours)
    seen: list[tuple[int, BaseGeometry]] = []
    over: list[tuple[int, BaseGeometry]] = []
    for order, mark in enumerate(marks):
        is_thick = bool(mark.stroke) and mark.width_px >= max(least, 1.0) and not mark.dashed
        shows = [_area(mark)] if mark.fill in colours else []
        if is_thick and mark.stroke in colours:
            shows += _thick(mark)
        seen += [(order, shape) for shape in shows]
        if shows:
            continue
        if mark.fill and _luminance(mark.fill) >= darkest + _LIGHTER:
            over.append((order, _area(mark)))
        if is_thick and mark.stroke and _luminance(mark.stroke) >= _PAPER:
            over += [(order, shape) for shape in _thick(mark)]
    tree = shapely.STRtree([shape for _, shape in over])
    left = []
    for order, shape in seen:
        hiding = [
            over[at][1]
            for at in tree.query(shape, predicate="intersects").tolist()
            if over[at][0] > order
        ]
        left.append(shape.difference(shapely.union_all(hiding)) if hiding else shape)
    return shapely.union_all(left)


def _area(mark: Mark) -> BaseGeometry:
    """Return what a path fills."""
    rings = [shapely.make_valid(Polygon(run.points)) for run in mark.runs if len(run.points) >= 4]
    if len(rings) < 2:
        return rings[0] if rings else Polygon()
    if mark.even_odd:
        covered: BaseGeometry = rings[0]
        for ring in rings[1:]:
            covered = covered.symmetric_difference(ring)
        return covered
    # By the non-zero rule a ring that turns the other way is a hole [ISO 32000-1, 8.5.3.3.2].
    largest = max(range(len(rings)), key=lambda at: rings[at].area)
    turns = [shapely.LinearRing(run.points).is_ccw for run in mark.runs if len(run.points) >= 4]
    solid = [ring for ring, turn in zip(rings, turns, strict=True) if turn == turns[largest]]
    holes = [ring for ring, turn in zip(rings, turns, strict=True) if turn != turns[largest]]
    return shapely.union_all(solid).difference(shapely.union_all(holes))


def _thick(mark: Mark) -> list[BaseGeometry]:
    return [
        LineString(run.points).buffer(mark.width_px / 2, cap_style="flat", join_style="mitre")
        for run in mark.runs
    ]


def _pens(marks: Sequence[Mark]) -> list[tuple[float, list[LineString]]]:
    """Return the widths of the pens most drawn with, each with its strokes."""
    drawn: dict[tuple[float, Colour], list[LineString]] = {}
    for mark in marks:
        if mark.stroke and _luminance(mark.stroke) < _PAPER and not mark.dashed:
            pen = round(mark.width_px, 1), mark.stroke
            drawn.setdefault(pen, []).extend(map(_line, mark.runs))
    sets = [
        (width, lines)
        for (width, _), lines in drawn.items()
        if _FEWEST <= shapely.get_num_coordinates(lines).sum() - len(lines) <= _MOST
    ]
    sets.sort(key=lambda pen: -sum(line.length for line in pen[1]))
    return sets[:_MOST_SETS]


def _line(run: Run) -> LineString:
    return LineString(run.points)


def _luminance(colour: Colour) -> float:
    """Return how light a colour is, of 255 [ITU-R BT.601]."""
    red, green, blue = colour
    return 0.299 * red + 0.587 * green + 0.114 * blue
