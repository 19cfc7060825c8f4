"""The working picture: flat, upright, of bounded size, and its way back to the picture as given.

Coordinates in both are of pixel edges: the first pixel reaches from 0 to 1.
"""

import math

import cv2
import numpy as np
from attrs import frozen

from estimator.plan.sheet import Sheet, mapped
from estimator.reading.arrays import Pixels, Places
from estimator.reading.picture import Picture
from estimator.reading.settings import Settings
from estimator.reading.sheet.flattening import laid_flat, sheet_in
from estimator.reading.skew import skew


@frozen(kw_only=True, eq=False)
class Frame:
    """The working picture.

    Parameters
    ----------
    colour : uint8, shape (H, W, 3)
        As given, upright; a drawing bright on dark is turned into greys, dark on bright.
    grey : uint8, shape (H, W)
        Dark ink on bright paper.
    to_picture : float, shape (3, 3)
        Projective map from the working picture to the picture as given.
    angle
        How far the drawing stood turned, in radians.
    sheet
        How the sheet lies in the picture as given; None when that is flat.
    """

    colour: Pixels
    grey: Pixels
    to_picture: Places
    angle: float
    sheet: Sheet | None = None

    def back(self, places: Places) -> Places:
        """Map places, shape (N, 2), to the picture as given."""
        return mapped(self.to_picture, places)

    @property
    def zoom(self) -> float:
        """Pixels of the picture as given to one pixel in the middle of the working picture."""
        tall, wide = self.grey.shape
        corners = np.array([wide / 2, tall / 2]) + np.array([[0, 0], [1, 0], [0, 1]])
        middle, across, down = self.back(corners)
        return math.sqrt(abs(float(np.linalg.det([across - middle, down - middle]))))


def _is_negative(grey: Pixels) -> bool:
    """Tell whether the drawing is bright on dark, by its thin strokes or, where clear, broad ones.

    Over 38 dark drawings thin bright strokes were at least 1.02 times as strong as dark ones on
    negatives and blueprints, at most 0.94 times in dark surrounds and photographs, where broad ones
    were at most 1.8 times as strong.
    """
    return float(np.median(grey)) < 128 and any(
        _strokes(cv2.MORPH_TOPHAT, grey, width) > times * _strokes(cv2.MORPH_BLACKHAT, grey, width)
        for width, times in ((0.01, 1.0), (0.025, 2.5))
    )


def _strokes(kind: int, grey: Pixels, width: float) -> float:
    """Return how strong the strokes up to a width are, as a share of the longer side."""
    size = max(3, round(width * max(grey.shape))) | 1
    return cv2.mean(cv2.morphologyEx(grey, kind, np.ones((size, size), np.uint8)))[0]


def frame(picture: Picture, settings: Settings) -> Frame:
    """Make the working picture of a picture."""
    sheet = sheet_in(picture.pixels)
    given, to_given = (laid_flat(picture, sheet), sheet.map) if sheet else (picture, np.eye(3))
    colour = _sized(given.pixels, settings)
    grey = np.asarray(cv2.cvtColor(colour, cv2.COLOR_RGB2GRAY), np.uint8)
    small = min(1.0, 500 / max(grey.shape))
    thumb = np.asarray(
        cv2.resize(grey, None, fx=small, fy=small, interpolation=cv2.INTER_AREA), np.uint8
    )
    if _is_negative(thumb):
        grey, thumb = 255 - grey, 255 - thumb
        stretched = cv2.normalize(grey, np.empty_like(grey), 0, 255, cv2.NORM_MINMAX)
        colour = np.asarray(cv2.cvtColor(stretched, cv2.COLOR_GRAY2RGB), np.uint8)
    tall, wide = grey.shape
    to_work = np.diag([wide / given.width_px, tall / given.height_px, 1.0]) @ to_given
    angle = skew(thumb)
    if abs(angle) <= settings.skew_least:
        angle = 0.0
    else:
        grey, turn = _turned(grey, angle)
        colour, _ = _turned(colour, angle)
        to_work = np.vstack([turn, [0, 0, 1]]) @ to_work
    to_picture = np.asarray(np.linalg.inv(to_work), np.float64)
    return Frame(colour=colour, grey=grey, to_picture=to_picture, angle=angle, sheet=sheet)


def _sized(pixels: Pixels, settings: Settings) -> Pixels:
    """Return the picture at a size that is neither too coarse nor too large to work on."""
    longer = max(pixels.shape[:2])
    if settings.work_least <= longer <= settings.work_most:
        return pixels
    if longer > settings.work_most:
        factor, how = settings.work_most / longer, cv2.INTER_AREA
    else:
        factor, how = min(2.0, settings.work_least / longer), cv2.INTER_CUBIC
    sized = cv2.resize(pixels, None, fx=factor, fy=factor, interpolation=how)
    return np.asarray(sized, np.uint8)


def _turned(pixels: Pixels, angle: float) -> tuple[Pixels, Places]:
    """Return the picture turned upright on a sheet that holds all of it, and the map there."""
    tall, wide = pixels.shape[:2]
    c, s = math.cos(angle), math.sin(angle)
    size = math.ceil(abs(wide * c) + abs(tall * s)), math.ceil(abs(wide * s) + abs(tall * c))
    turn = np.array([[c, s, 0.0], [-s, c, 0.0]])
    turn[:, 2] = np.array(size) / 2 - turn[:, :2] @ np.array([wide / 2, tall / 2])
    centred = turn.copy()  # OpenCV counts from pixel centres, this module from pixel edges
    centred[:, 2] += turn[:, :2] @ np.array([0.5, 0.5]) - 0.5
    paper = float(np.median(pixels))
    turned = cv2.warpAffine(
        pixels,
        centred,
        size,
        flags=cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_CONSTANT,
        borderValue=[paper] * 3,
    )
    return np.asarray(turned, np.uint8), turn
