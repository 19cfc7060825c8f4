"""The working picture: grey, upright, of bounded size, and its way back to the picture as given.

Coordinates in both are of pixel edges: the first pixel reaches from 0 to 1.
"""

import math

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.picture import Picture, Pixels
from estimator.reading.settings import Settings

Places = NDArray[np.float64]


@frozen(kw_only=True, eq=False)
class Frame:
    """The working picture.

    Parameters
    ----------
    grey : uint8, shape (H, W)
        Dark ink on bright paper.
    to_picture : float, shape (2, 3)
        Affine map from the working picture to the picture as given.
    angle
        How far the drawing stood turned, in radians.
    """

    grey: Pixels
    to_picture: Places
    angle: float

    def back(self, places: Places) -> Places:
        """Map places, shape (N, 2), to the picture as given."""
        mapped: Places = places @ self.to_picture[:, :2].T + self.to_picture[:, 2]
        return mapped

    @property
    def zoom(self) -> float:
        """Pixels of the picture as given to one pixel of the working picture."""
        return math.sqrt(abs(float(np.linalg.det(self.to_picture[:, :2]))))


def _is_negative(grey: Pixels) -> bool:
    """Tell whether the drawing is bright on dark."""
    size = max(3, round(0.05 * max(grey.shape))) | 1
    kernel = np.ones((size, size), np.uint8)
    bright_strokes = cv2.mean(cv2.morphologyEx(grey, cv2.MORPH_TOPHAT, kernel))[0]
    dark_strokes = cv2.mean(cv2.morphologyEx(grey, cv2.MORPH_BLACKHAT, kernel))[0]
    return float(np.median(grey)) < 128 and bright_strokes > 1.5 * dark_strokes


def skew(grey: Pixels) -> float:
    """Estimate how far the drawing is turned from upright, within 45 degrees, in radians.

    The strongest direction of the edges gives it within a degree; the angle at which rows and
    columns are then most unequal gives the rest.
    """
    dx = cv2.Sobel(grey, cv2.CV_32F, 1, 0)
    dy = cv2.Sobel(grey, cv2.CV_32F, 0, 1)
    strength, direction = cv2.cartToPolar(dx, dy)
    strong = strength > max(60.0, 0.3 * float(strength.max()))
    if np.count_nonzero(strong) < 100:
        return 0.0
    quarter = math.pi / 2
    turned = np.mod(direction[strong] + quarter / 2, quarter) - quarter / 2
    votes, _ = np.histogram(turned, 90, (-quarter / 2, quarter / 2), weights=strength[strong])
    round_votes = votes + np.roll(votes, 1) + np.roll(votes, -1)
    best = int(np.argmax(round_votes))
    if (
        round_votes[best] < 3 * round_votes.mean()
        or round_votes[44:46].max() > 0.8 * round_votes[best]
    ):
        coarse = 0.0
    else:
        coarse = (best + 0.5) * quarter / 90 - quarter / 4 - quarter / 4
    tall, wide = grey.shape
    middle = (wide / 2, tall / 2)
    inked = 255 - grey

    def unevenness(angle: float) -> float:
        turn = cv2.getRotationMatrix2D(middle, math.degrees(angle), 1.0)
        turned = cv2.warpAffine(inked, turn, (wide, tall))
        across = cv2.reduce(turned, 1, cv2.REDUCE_SUM, dtype=cv2.CV_32F).ravel()
        down = cv2.reduce(turned, 0, cv2.REDUCE_SUM, dtype=cv2.CV_32F).ravel()
        return float(np.square(np.diff(across)).sum() + np.square(np.diff(down)).sum())

    best_angle = coarse
    for reach, steps in ((0.05, 10), (0.005, 5), (0.001, 3)):
        tried = best_angle + np.linspace(-reach, reach, 2 * steps + 1)
        marks = [unevenness(angle) for angle in tried]
        marks[steps] *= 1.02  # a tie is no reason to turn the picture
        best_angle = float(tried[int(np.argmax(marks))])
    return best_angle


def frame(picture: Picture, settings: Settings) -> Frame:
    """Make the working picture of a picture."""
    longer = max(picture.width_px, picture.height_px)
    factor = 1.0
    if longer > settings.work_most:
        factor = settings.work_most / longer
    elif longer < settings.work_least:
        factor = min(2.0, settings.work_least / longer)
    grey = cv2.cvtColor(picture.pixels, cv2.COLOR_RGB2GRAY)
    if factor != 1.0:
        how = cv2.INTER_AREA if factor < 1 else cv2.INTER_CUBIC
        grey = cv2.resize(grey, None, fx=factor, fy=factor, interpolation=how)
    small = min(1.0, 500 / max(grey.shape))
    thumb = cv2.resize(grey, None, fx=small, fy=small, interpolation=cv2.INTER_AREA)
    if _is_negative(thumb):
        grey, thumb = 255 - grey, 255 - thumb
    tall, wide = grey.shape
    to_work = np.array([[wide / picture.width_px, 0, 0], [0, tall / picture.height_px, 0]])
    angle = skew(thumb)
    if abs(angle) > settings.skew_least:
        c, s = math.cos(angle), math.sin(angle)
        size = (
            math.ceil(abs(wide * c) + abs(tall * s)),
            math.ceil(abs(wide * s) + abs(tall * c)),
        )
        turn = np.array([[c, s, 0.0], [-s, c, 0.0]])
        turn[:, 2] = np.array(size) / 2 - turn[:, :2] @ np.array([wide / 2, tall / 2])
        # OpenCV counts from pixel centres, this module from pixel edges
        centred = turn.copy()
        centred[:, 2] += turn[:, :2] @ np.array([0.5, 0.5]) - 0.5
        paper = float(np.median(grey))
        grey = cv2.warpAffine(grey, centred, size, flags=cv2.INTER_LINEAR, borderValue=paper)
        to_work = turn[:, :2] @ to_work + np.column_stack([np.zeros((2, 2)), turn[:, 2]])
    else:
        angle = 0.0
    return Frame(grey=grey, to_picture=cv2.invertAffineTransform(to_work), angle=angle)
