"""The sheet in a photo, laid flat."""

import math

import cv2
import numpy as np
from attrs import evolve

from estimator.plan.sheet import Sheet
from estimator.reading.arrays import Pixels, Places
from estimator.reading.picture import Picture
from estimator.reading.sheet.corners import sheet_corners
from estimator.reading.sheet.light import evened
from estimator.reading.sheet.proportions import proportions

# A sheet whose sides all lie within this angle of upright is a scan, or drawn; in radians.
_UPRIGHT = 0.004
# OpenCV counts from pixel centres, a sheet from pixel edges.
_TO_EDGES = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1]])
_TO_CENTRES = np.linalg.inv(_TO_EDGES)


def sheet_in(pixels: Pixels) -> Sheet | None:
    """Return how the sheet lies that a photo shows; None when it shows none, or lies flat."""
    corners = sheet_corners(pixels)
    if corners is None or _is_upright(corners):
        return None
    tall, wide = pixels.shape[:2]
    ratio = proportions(corners, (wide, tall))
    height = math.sqrt(cv2.contourArea(corners.astype(np.float32)) / ratio)
    width_px, height_px = round(ratio * height), round(height)
    flat = np.array([[0, 0], [width_px, 0], [width_px, height_px], [0, height_px]], np.float32)
    return Sheet(
        from_picture=cv2.getPerspectiveTransform(corners.astype(np.float32), flat),
        width_px=width_px,
        height_px=height_px,
    )


def _is_upright(corners: Places) -> bool:
    sides = np.abs(np.roll(corners, -1, axis=0) - corners)
    return bool((sides.min(axis=1) < _UPRIGHT * sides.max(axis=1)).all())


def laid_flat(picture: Picture, sheet: Sheet) -> Picture:
    """Return the picture of a sheet, flat, upright and evenly lit."""
    pixels = cv2.warpPerspective(
        picture.pixels,
        _TO_CENTRES @ sheet.map @ _TO_EDGES,
        (sheet.width_px, sheet.height_px),
        flags=cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )
    return evolve(picture, pixels=evened(np.asarray(pixels, np.uint8)), dpi=None, words=())
