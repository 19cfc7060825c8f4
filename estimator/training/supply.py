"""The supply of drawn plans: picture number N is the same whoever draws it, wherever."""

import cv2
import numpy as np
import torch
from torch import Tensor
from torch.utils.data import Dataset

from estimator.reading.sight.classes import CONTENTS_STEP, DEEPEST_PX, ROOM
from estimator.synthesis.drawn import drawn

# Side of the square that the network sees in training.
SIDE_PX = 640


class DrawnPlans(Dataset[tuple[Tensor, Tensor, Tensor, Tensor]]):
    """Invented plans with their labels.

    Item ``n`` is a picture, uint8 (3, SIDE, SIDE); its classes, uint8 (SIDE, SIDE), numbered as
    ``CLASSES``; its depth, float16 (SIDE, SIDE); and its contents, uint8 (SIDE/2, SIDE/2), numbered
    as ``CONTENTS``.
    """

    def __init__(self, first: int, count: int, *, held_out: bool = False) -> None:
        self.first = first
        self.count = count
        self.held_out = held_out

    def __len__(self) -> int:
        return self.count

    def __getitem__(self, number: int) -> tuple[Tensor, Tensor, Tensor, Tensor]:
        """Draw plan ``number``."""
        cv2.setNumThreads(1)
        drawing = drawn(self.first + number, side_px=SIDE_PX, held_out=self.held_out)
        pixels = np.ascontiguousarray(drawing.pixels.transpose(2, 0, 1))
        return (
            torch.from_numpy(pixels),
            torch.from_numpy(drawing.labels),
            torch.from_numpy(depth(drawing.labels)),
            torch.from_numpy(drawing.contents[::CONTENTS_STEP, ::CONTENTS_STEP].copy()),
        )


def depth(labels: np.ndarray) -> np.ndarray:
    """Return how deep each pixel lies inside a room, 0 at its edge to 1, float16 (H, W)."""
    room = (labels == ROOM).astype(np.uint8)
    distance = cv2.distanceTransform(room, cv2.DIST_L2, 3)
    return np.minimum(distance / DEEPEST_PX, 1.0).astype(np.float16)
