"""What happens to a drawing on its way: paper, scanner, camera, compression."""

import cv2
import numpy as np
from numpy.typing import NDArray

from estimator.synthesis.layouts import Ring
from estimator.synthesis.paper import Picture

Matrix = NDArray[np.float64]
"""Maps pixels before to pixels after, shape (3, 3)."""


def moved(matrix: Matrix, points: Ring) -> Ring:
    """Return points carried along by a matrix."""
    homogeneous = np.concatenate([points, np.ones((len(points), 1))], axis=1) @ matrix.T
    return np.asarray(homogeneous[:, :2] / homogeneous[:, 2:])


def turned(size_px: tuple[int, int], degrees: float, zoom: float = 1.0) -> Matrix:
    """Return the matrix that turns a picture about its middle."""
    width, height = size_px
    matrix = cv2.getRotationMatrix2D((width / 2, height / 2), degrees, zoom)
    return np.vstack([matrix, [0, 0, 1]])


def warped(picture: Picture, matrix: Matrix, background: tuple[int, int, int]) -> Picture:
    """Return the picture carried along by a matrix."""
    height, width = picture.shape[:2]
    result = cv2.warpPerspective(
        picture, matrix, (width, height), flags=cv2.INTER_LINEAR, borderValue=background
    )
    return np.asarray(result, np.uint8)


def cloud(shape: tuple[int, int], grain_px: float, rng: np.random.Generator) -> NDArray[np.float32]:
    """Return smooth noise of mean 0 and deviation 1, shape (H, W), wide as the grain."""
    rows, columns = (max(2, round(side / grain_px) + 1) for side in shape)
    coarse = rng.standard_normal((rows, columns), dtype=np.float32)
    fine = cv2.resize(coarse, shape[::-1], interpolation=cv2.INTER_CUBIC)
    return np.asarray((fine - fine.mean()) / max(float(fine.std()), 1e-6), np.float32)


def on_paper(
    picture: Picture,
    rng: np.random.Generator,
    *,
    tint: tuple[int, int, int] = (250, 247, 238),
    unevenness: float = 0.03,
    grain: float = 0.012,
) -> Picture:
    """Return the picture on paper of a tint, unevenly lit and grained."""
    height, width = picture.shape[:2]
    light = 1 + unevenness * cloud((height, width), max(height, width) / 2, rng)
    light += grain * rng.standard_normal((height, width), dtype=np.float32)
    shade = light[..., None] * (np.array(tint, np.float32) / 255)
    return np.clip(picture * shade, 0, 255).astype(np.uint8)


def scanned(picture: Picture, rng: np.random.Generator) -> Picture:
    """Return a grey scan of the picture: soft, noisy, specked, with a shadow at one edge."""
    height, width = picture.shape[:2]
    soft = cv2.GaussianBlur(cv2.cvtColor(picture, cv2.COLOR_RGB2GRAY), (0, 0), 0.8)
    grey = (30 + soft * (215 / 255)).astype(np.float32)
    grey += 4.0 * rng.standard_normal((height, width), dtype=np.float32)
    grey += 3.0 * cloud((height, width), 300, rng)
    shadow = np.exp(-np.arange(width) / 26.0)[::-1] * 70
    grey -= shadow.astype(np.float32)
    for _ in range(140):
        at = (int(rng.integers(width)), int(rng.integers(height)))
        cv2.circle(grey, at, int(rng.integers(0, 2)), float(rng.uniform(60, 160)), -1, cv2.LINE_AA)
    fold = int(height * 0.52)
    grey[fold : fold + 2] -= 14
    grey[fold + 2 : fold + 4] += 9
    clipped = np.clip(grey, 0, 255).astype(np.uint8)
    return np.asarray(cv2.cvtColor(clipped, cv2.COLOR_GRAY2RGB), np.uint8)


def two_toned(picture: Picture, threshold: int = 150) -> Picture:
    """Return the picture in pure black and white, as an office scanner files it."""
    grey = cv2.cvtColor(picture, cv2.COLOR_RGB2GRAY)
    tone = np.where(grey > threshold, 255, 0).astype(np.uint8)
    return np.asarray(cv2.cvtColor(tone, cv2.COLOR_GRAY2RGB), np.uint8)
