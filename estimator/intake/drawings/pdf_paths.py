"""The paths of a PDF page, in pixels of the picture that is drawn of it."""

import ctypes
import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]
from attrs import frozen
from numpy.typing import NDArray
from shapely.geometry import LineString

from estimator.errors import SourceError
from estimator.intake.drawings.bends import bends
from estimator.intake.pdf import opened
from estimator.intake.sniffing import REMEDY
from estimator.plan.opening import Point
from estimator.reading.picture import Picture

Colour = tuple[int, int, int]
Matrix = NDArray[np.float64]

MOST_PATHS = 60_000
"""Paths of a page that are looked at; one with more is a map or a rendering."""

_FINE = 1000  # parts of a pixel in which the page is placed
_DEEPEST = 6  # forms within forms
_OPAQUE = 128  # of 255
_CHORDS = (8, 64)  # to a curve


@frozen(kw_only=True, eq=False)
class Run:
    """Points in a row; ``curves`` are those of its parts that are bent."""

    points: tuple[Point, ...]
    closed: bool
    curves: tuple[LineString, ...]


@frozen(kw_only=True, eq=False)
class Mark:
    """One path with how it is painted; a colour of None: not filled, or not stroked."""

    runs: tuple[Run, ...]
    fill: Colour | None
    stroke: Colour | None
    width_px: float
    dashed: bool
    even_odd: bool


def marks_of(data: bytes, picture: Picture) -> list[Mark]:
    """Return the paths of the page that a picture shows, in the order they are painted.

    None are returned when there are too many.

    Raises
    ------
    SourceError
        When the document is damaged.
    """
    with opened(data, picture.file) as document:
        try:
            page = document[picture.page - 1]
            place = _placed(page, picture)
            found = []
            for mark in _marks(pdfium.FPDFPage_GetObject, page.raw, _count(page.raw), place, 0):
                found.append(mark)
                if len(found) > MOST_PATHS:
                    return []
            return found
        except pypdfium2.PdfiumError as error:
            problem = f"page {picture.page} is damaged"
            raise SourceError(picture.file, problem, REMEDY) from error


def _count(page: object) -> int:
    return int(pdfium.FPDFPage_CountObjects(page))


def _placed(page: pypdfium2.PdfPage, picture: Picture) -> Matrix:
    """Return the matrix from points of the page to pixels, its rotation and crop undone."""
    size = picture.width_px * _FINE, picture.height_px * _FINE
    corners = []
    for x, y in ((0, 0), (1000, 0), (0, 1000)):
        across, down = ctypes.c_int(), ctypes.c_int()
        pdfium.FPDF_PageToDevice(page.raw, 0, 0, *size, 0, x, y, across, down)
        corners.append(np.array([across.value, down.value]) / _FINE)
    origin, right, up = corners
    matrix = np.eye(3)
    matrix[:2, 0], matrix[:2, 1] = (right - origin) / 1000, (up - origin) / 1000
    matrix[:2, 2] = origin
    return matrix


def _marks(get: object, parent: object, count: int, place: Matrix, depth: int) -> Iterator[Mark]:
    for index in range(count):
        thing = get(parent, index)  # type: ignore[operator]
        kind = pdfium.FPDFPageObj_GetType(thing)
        matrix = place @ _matrix(thing)
        if kind == pdfium.FPDF_PAGEOBJ_FORM and depth < _DEEPEST:
            inside = pdfium.FPDFFormObj_CountObjects(thing)
            yield from _marks(pdfium.FPDFFormObj_GetObject, thing, inside, matrix, depth + 1)
        elif kind == pdfium.FPDF_PAGEOBJ_PATH and (mark := _mark(thing, matrix)):
            yield mark


def _matrix(thing: object) -> Matrix:
    found = pdfium.FS_MATRIX()
    if not pdfium.FPDFPageObj_GetMatrix(thing, found):
        return np.eye(3)
    return np.array([[found.a, found.c, found.e], [found.b, found.d, found.f], [0, 0, 1]])


def _mark(path: object, place: Matrix) -> Mark | None:
    filling, stroking = ctypes.c_int(), ctypes.c_int()
    pdfium.FPDFPath_GetDrawMode(path, filling, stroking)
    fill = _colour(pdfium.FPDFPageObj_GetFillColor, path) if filling.value else None
    stroke = _colour(pdfium.FPDFPageObj_GetStrokeColor, path) if stroking.value else None
    runs = tuple(_runs(path, place)) if fill or stroke else ()
    if not runs:
        return None
    width = ctypes.c_float()
    pdfium.FPDFPageObj_GetStrokeWidth(path, width)
    return Mark(
        runs=runs,
        fill=fill,
        stroke=stroke,
        width_px=width.value * math.sqrt(abs(np.linalg.det(place[:2, :2]))),
        dashed=pdfium.FPDFPageObj_GetDashCount(path) > 0,
        even_odd=filling.value == pdfium.FPDF_FILLMODE_ALTERNATE,
    )


def _colour(get: object, path: object) -> Colour | None:
    """Return a colour; None when it is more clear than opaque."""
    parts = [ctypes.c_uint() for _ in range(4)]
    if not get(path, *parts) or parts[3].value < _OPAQUE:  # type: ignore[operator]
        return None
    red, green, blue = (part.value for part in parts[:3])
    return red, green, blue


def _runs(path: object, place: Matrix) -> Iterator[Run]:
    points: list[Point] = []
    controls: list[Point] = []
    closed = False
    for index in range(pdfium.FPDFPath_CountSegments(path)):
        segment = pdfium.FPDFPath_GetPathSegment(path, index)
        kind = pdfium.FPDFPathSegment_GetType(segment)
        x, y = ctypes.c_float(), ctypes.c_float()
        pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        across, down, _ = place @ (x.value, y.value, 1.0)
        point = float(across), float(down)
        if kind == pdfium.FPDF_SEGMENT_MOVETO:
            yield from _run(points, closed)
            points, closed = [point], False
        elif kind == pdfium.FPDF_SEGMENT_BEZIERTO:
            controls.append(point)
            if len(controls) == 3:
                points += _bent(points[-1], *controls)
                controls = []
        else:
            points.append(point)
        closed = closed or bool(pdfium.FPDFPathSegment_GetClose(segment))
    yield from _run(points, closed)


def _run(points: list[Point], closed: bool) -> Iterator[Run]:
    if closed and points[0] != points[-1]:
        points = [*points, points[0]]
    kept = points[:1] + [after for before, after in pairwise(points) if before != after]
    if len(kept) > 1 and all(math.isfinite(part) for point in kept for part in point):
        yield Run(
            points=tuple(kept), closed=closed or kept[0] == kept[-1], curves=tuple(bends(kept))
        )


def _bent(start: Point, *controls: Point) -> list[Point]:
    """Return a cubic curve of Bézier as chords, without its start."""
    corners = np.array([start, *controls])
    size = float(np.linalg.norm(np.diff(corners, axis=0), axis=1).sum())
    count = int(np.clip(3 * math.sqrt(size), *_CHORDS))
    at = np.linspace(0, 1, count + 1)[1:, None]
    weights = np.hstack([(1 - at) ** 3, 3 * at * (1 - at) ** 2, 3 * at**2 * (1 - at), at**3])
    return [(float(x), float(y)) for x, y in weights @ corners]
