"""Outlines of faces, squared only where the ink is square."""

import math

import cv2
import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from estimator.reading.settings import Settings

Mask = NDArray[np.bool_]
Places = NDArray[np.float64]


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


def _ring(contour: NDArray[np.int32], thickness: float, settings: Settings) -> Places | None:
    """Return one closed contour of pixel centres as corners on the edges of those pixels."""
    points = contour.reshape(-1, 2)
    kept = cv2.approxPolyDP(contour, max(1.2, settings.wobble * thickness), True).reshape(-1, 2)
    if len(kept) < 3:
        return None
    order = {(int(x), int(y)): at for at, (x, y) in enumerate(points)}
    at = [order[(int(x), int(y))] for x, y in kept]
    lines = []
    for index, start in enumerate(at):
        end = at[(index + 1) % len(at)]
        stretch = (
            points[start : end + 1]
            if end > start
            else np.vstack([points[start:], points[: end + 1]])
        )
        stretch = stretch.astype(float)
        length = math.dist(stretch[0], stretch[-1])
        line = _edge_line(stretch, max(length, 1e-6), thickness, settings)
        line[2] += 0.5 * (line[0] + line[1])  # from pixel centres to pixel edges
        lines.append(line)
    return _corners(lines, kept.astype(float) + 0.5, thickness)


def _corners(lines: list[Places], kept: Places, thickness: float) -> Places:
    """Push every edge half a pixel outwards, onto the pixels' own edges, and let them meet."""
    inside = _signed_area(kept) > 0
    lines = [line - np.array([0, 0, 0.5 if inside else -0.5]) for line in lines]
    corners: list[Places] = []
    for index, corner in enumerate(kept):
        corners += _meet(lines[index - 1], lines[index], corner, thickness)
    return np.array(corners)


def _signed_area(corners: Places) -> float:
    x, y = corners[:, 0], corners[:, 1]
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def outline_of(face: Mask, thickness: float, settings: Settings) -> Polygon | None:
    """Return the outline of a face on the pixels' edges; None when it has no body.

    Parameters
    ----------
    face : bool, shape (H, W)
    thickness
        Of the thinnest usual wall, in pixels.
    """
    padded = cv2.copyMakeBorder(face.astype(np.uint8), 1, 1, 1, 1, cv2.BORDER_CONSTANT)
    contours, tree = cv2.findContours(padded, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    if tree is None:
        return None
    outers = [at for at in range(len(contours)) if tree[0][at][3] < 0]
    outer = max(outers, key=lambda at: cv2.contourArea(contours[at]))
    shell = _ring(contours[outer] - 1, thickness, settings)
    if shell is None:
        return None
    outline = Polygon(shell)
    pixels = float(np.count_nonzero(face))
    if not outline.is_valid or abs(outline.area - _filled(contours[outer])) > 0.02 * outline.area:
        rough = cv2.approxPolyDP(contours[outer] - 1, 1.0, True).reshape(-1, 2) + 0.5
        if len(rough) < 3:
            return None
        outline = Polygon(rough).buffer(0.5, join_style="mitre")
    for at, contour in enumerate(contours):
        if tree[0][at][3] == outer:
            hole = cv2.contourArea(contour)
            if hole < max((settings.column_least * thickness) ** 2, 0.002 * pixels):
                continue
            ring = cv2.approxPolyDP(contour - 1, 1.0, True).reshape(-1, 2) + 0.5
            if len(ring) >= 3:
                outline = outline.difference(Polygon(ring).buffer(-0.5, join_style="mitre"))
    if outline.geom_type != "Polygon":
        parts = [part for part in shapely.get_parts(outline) if part.geom_type == "Polygon"]
        if not parts:
            return None
        outline = max(parts, key=lambda part: part.area)
    return outline if outline.is_valid and outline.area > 0 else None


def _filled(contour: NDArray[np.int32]) -> float:
    """Return how many pixels a contour of pixel centres encloses, itself included."""
    return float(cv2.contourArea(contour)) + len(contour) / 2 + 1
