"""The supply of drawn plans: picture number N is the same whoever draws it, wherever."""

import cv2
import numpy as np
import torch
from torch import Tensor
from torch.utils.data import Dataset

from estimator.reading.sight.classes import CONTENTS_STEP, DEEPEST_PX, OUTSIDE, ROOM
from estimator.synthesis.drawn import drawn
from estimator.synthesis.schematics import schematic

# Side of the square that the network sees in training.
SIDE_PX = 640

# Every second drawing is larger, and seen in part: readings show the network pictures of 1024.
LARGEST_PX = 1088

# Every so many-th training picture is no plan.
NO_PLAN_EVERY = 40


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
        seed = self.first + number
        if seed % NO_PLAN_EVERY == 0 and not self.held_out:
            labels = contents = np.zeros((SIDE_PX, SIDE_PX), np.uint8)
            pixels, deep = schematic(seed, side_px=SIDE_PX), depth(labels)
        else:
            rng = np.random.default_rng((seed, 3))
            side = SIDE_PX
            if not self.held_out and rng.random() < 0.5:
                side = int(rng.integers(SIDE_PX, LARGEST_PX))
            drawing = drawn(seed, side_px=side, held_out=self.held_out)
            part = seen_part(drawing.labels, rng)
            pixels, labels, contents = (
                drawing.pixels[part],
                drawing.labels[part],
                drawing.contents[part],
            )
            deep = depth(drawing.labels)[part]
        return (
            torch.from_numpy(np.ascontiguousarray(pixels.transpose(2, 0, 1))),
            torch.from_numpy(np.ascontiguousarray(labels)),
            torch.from_numpy(np.ascontiguousarray(deep)),
            torch.from_numpy(contents[::CONTENTS_STEP, ::CONTENTS_STEP].copy()),
        )


def seen_part(labels: np.ndarray, rng: np.random.Generator) -> tuple[slice, slice]:
    """Return the rows and columns of a square of the training's side about some drawn pixel."""
    spare = labels.shape[0] - SIDE_PX
    if not spare:
        return slice(None), slice(None)
    drawn_at = np.argwhere(labels[::8, ::8] != OUTSIDE) * 8
    middle = drawn_at[int(rng.integers(len(drawn_at)))] if len(drawn_at) else np.full(2, SIDE_PX)
    top, left = np.clip(middle - SIDE_PX // 2, 0, spare).tolist()
    return slice(top, top + SIDE_PX), slice(left, left + SIDE_PX)


def depth(labels: np.ndarray) -> np.ndarray:
    """Return how deep each pixel lies inside a room, 0 at its edge to 1, float16 (H, W)."""
    room = (labels == ROOM).astype(np.uint8)
    distance = cv2.distanceTransform(room, cv2.DIST_L2, 3)
    return np.minimum(distance / DEEPEST_PX, 1.0).astype(np.float16)
