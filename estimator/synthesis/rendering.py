"""What brochures do to a plan: shadows beside the walls, grain in the floors, grass about them."""

import cv2
import numpy as np
from numpy.typing import NDArray

from estimator.reading.sight.classes import OUTSIDE, ROOM, WALL
from estimator.synthesis.degradation import cloud
from estimator.synthesis.labels import Labels
from estimator.synthesis.paper import Picture

Rng = np.random.Generator


def rendered(picture: Picture, labels: Labels, rng: Rng) -> Picture:
    """Return a picture shaded and textured, what each pixel shows being known."""
    light = np.ones(labels.shape, np.float32)
    if rng.random() < 0.7:
        light *= _shadows(labels, rng)
    if rng.random() < 0.6:
        light[labels == ROOM] *= _grain(labels.shape, rng)[labels == ROOM]
    shaded = picture * light[..., None]
    if rng.random() < 0.3:
        about = labels == OUTSIDE
        green = rng.uniform((90, 130, 60), (190, 220, 150)).astype(np.float32) / 255
        shaded[about] *= _grain(labels.shape, rng)[about, None] * green
    return np.asarray(np.clip(shaded, 0, 255), np.uint8)


def _shadows(labels: Labels, rng: Rng) -> NDArray[np.float32]:
    """Return the light beside walls that stand up: less on the side away from a lamp."""
    walls = (labels == WALL).astype(np.float32)
    moved = np.array([[1, 0, rng.uniform(-7, 7)], [0, 1, rng.uniform(-7, 7)]])
    cast = cv2.warpAffine(walls, moved, walls.shape[::-1])
    cast = cv2.GaussianBlur(cast, (0, 0), float(rng.uniform(0.8, 4)))
    shade = 1 - np.float32(rng.uniform(0.15, 0.5)) * cast
    return np.asarray(np.where(walls > 0, np.float32(1), shade), np.float32)


def _grain(shape: tuple[int, int], rng: Rng) -> NDArray[np.float32]:
    """Return the light of a surface with streaks along one way, or with spots."""
    tall, wide = shape
    coarse = rng.uniform(2, 16, 2) if rng.random() < 0.4 else rng.permutation((2.0, 40.0))
    size = (max(2, int(wide / coarse[0])), max(2, int(tall / coarse[1])))
    spots = cloud((size[1], size[0]), 1.5, rng)
    grain = cv2.resize(spots, (wide, tall), interpolation=cv2.INTER_LINEAR)
    return np.asarray(1 + np.float32(rng.uniform(0.02, 0.12)) * grain, np.float32)
