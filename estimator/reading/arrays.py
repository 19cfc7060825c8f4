"""The kinds of array the reader works on."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

Pixels = NDArray[np.uint8]
"""Brightness from 0 to 255, shape (H, W), or red, green and blue, shape (H, W, 3)."""

Mask = NDArray[np.bool_]
"""Which pixels, shape (H, W), or which of several things, shape (N,)."""

Labels = NDArray[np.int32]
"""The number of the region each pixel belongs to, shape (H, W)."""

Places = NDArray[np.float64]
"""Points as (x, y), shape (N, 2), or affine maps of them, shape (2, 3)."""

Counts = NDArray[np.int64]
"""Whole numbers, shape (N,)."""

Floats = NDArray[np.floating[Any]]
"""Measures of several things, shape (N,)."""
