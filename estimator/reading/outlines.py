"""Outlines of faces, squared only where the ink is square."""

import math

import cv2
import numpy as np
import shapely
from shapely.geometry import Polygon

from estimator.reading.arrays import Mask, Places
from estimator.reading.settings import Settings


def _edge_line(points: Places, length: float, thickness: float, settings: Settings) -> Places:
    """Return the line (a, b, c), a x + b y = c, along a stretch of contour."""
    first, last = points[0], points[-1]
    angle = math.atan2(last[1] - first[1], last[0] - first[0])
    off_axis = abs((angle + math.pi / 4) % (math.pi / 2) - math.pi / 4)
    # the ends of a short edge may each be a pixel off
    if off_axis <= settings.square_within + 1.5 / length:
        level = abs(math.cos(angle)) > abs(math.sin(angle))
        trimmed = points[len(points) // 5 : len(points) - len(points) // 5]
        place = float(np.median(trimmed[:, 1 if level else 0]))
        normal = np.array([0.0, 1.0]) if level else np.array([1.0, 0.0])
        if normal @ [-math.sin(angle), math.cos(angle)] < 0:
            normal, place = -normal, -place
        return np.array([*normal, place])
    if length > 3 * thickness:
        vx, vy, x, y = cv2.fitLine(points.astype(np.float32), cv2.DIST_HUBER, 0, 0.01, 0.01).ravel()
        if vx * (last[0] - first[0]) + vy * (last[1] - first[1]) < 0:
            vx, vy = -vx, -vy
        return np.array([-vy, vx, -vy * x + vx * y], float)
    normal = np.array([-math.sin(angle), math.cos(angle)])
    return np.array([*normal, normal @ first])


def _meet(before: Places, after: Places, corner: Places, thickness: float) -> list[Places]:
    """Return where two edges meet, near the corner they had."""
    turn = before[0] * after[1] - before[1] * after[0]
    if abs(turn) > 0.2:
        at = (
            np.array(
                [
                    before[2] * after[1] - before[1] * after[2],
                    before[0] * after[2] - before[2] * after[0],
                ]
            )
            / turn
        )
        if math.dist(at, corner) <= max(2.0, thickness):
            return [at]
    dropped = [corner - (line[:2] @ corner - line[2]) * line[:2] for line in (before, after)]
    if math.dist(*dropped) < 1.0:
        return [(dropped[0] + dropped[1]) / 2]
    return dropped


def _edges(kept: Places, points: Places) -> list[Places]:
    """Return the stretch of contour along each edge of its simplified polygon."""
    order = {(x, y): at for at, (x, y) in enumerate(points.tolist())}
    at = [order[(x, y)] for x, y in kept.tolist()]
    return [
        points[start : end + 1] if end > start else np.vstack([points[start:], points[: end + 1]])
        for start, end in zip(at, [*at[1:], at[0]], strict=True)
    ]


def _ring(points: Places, thickness: float, settings: Settings) -> Polygon | None:
    """Return a contour, given by the centres of its pixels, as a polygon on those pixels' edges."""
    kept = _simplified(points, max(1.2, settings.wobble * thickness))
    if len(kept) < 3:
        return None
    outwards = 0.5 if _signed_area(kept) > 0 else -0.5
    lines = []
    for stretch in _edges(kept, points):
        length = max(math.dist(stretch[0], stretch[-1]), 1e-6)
        line = _edge_line(stretch, length, thickness, settings)
        line[2] -= outwards  # from the pixels' centres to their edges
        lines.append(line)
    corners: list[Places] = []
    for index, corner in enumerate(kept):
        corners += _meet(lines[index - 1], lines[index], corner, thickness)
    return Polygon(np.array(corners) + 0.5) if len(corners) > 2 else None


def _rough(points: Places, outwards: float) -> Polygon | None:
    """Return a contour as a polygon that follows each pixel."""
    kept = _simplified(points, 1.0)
    if len(kept) < 3:
        return None
    return _largest(Polygon(kept + 0.5).buffer(outwards, join_style="mitre"))


def _simplified(points: Places, within: float) -> Places:
    kept = cv2.approxPolyDP(points.astype(np.int32)[:, None], within, True)
    return np.asarray(kept, float).reshape(-1, 2)


def _signed_area(corners: Places) -> float:
    x, y = corners[:, 0], corners[:, 1]
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def _largest(shape: shapely.Geometry) -> Polygon | None:
    """Return the largest polygon of a geometry; None when it has none."""
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, Polygon)]
    largest = max(parts, key=lambda part: part.area, default=None)
    return largest if largest is not None and largest.is_valid and largest.area > 0 else None


def outline_of(face: Mask, thickness: float, settings: Settings) -> Polygon | None:
    """Return the outline of a face on the pixels' edges; None when it has no body.

    Parameters
    ----------
    face : bool, shape (H, W)
    thickness
        Of the thinnest usual wall, in pixels.
    """
    padded = cv2.copyMakeBorder(face.view(np.uint8), 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=[0])
    contours, tree = cv2.findContours(padded, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    rings = [np.asarray(contour, float).reshape(-1, 2) - 1 for contour in contours]
    outers = [at for at in range(len(rings)) if tree[0][at][3] < 0]
    if not outers:
        return None
    outer = max(outers, key=lambda at: len(rings[at]))
    outline: Polygon | None = _ring(rings[outer], thickness, settings)
    # the pixels a contour of pixel centres encloses, itself included
    enclosed = abs(_signed_area(rings[outer])) + len(rings[outer]) / 2 + 1
    if not outline or not outline.is_valid or abs(outline.area / enclosed - 1) > 0.02:
        outline = _rough(rings[outer], 0.5)
    least = max((settings.column_least * thickness) ** 2, 0.002 * np.count_nonzero(face))
    for at, ring in enumerate(rings):
        if outline and tree[0][at][3] == outer and abs(_signed_area(ring)) >= least:
            column = _rough(ring, -0.5)
            outline = _largest(outline.difference(column)) if column else outline
    return outline
