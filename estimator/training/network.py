"""The reading network: a small U-shaped convolutional network.

From a picture it tells for every pixel whether it shows outside, wall, door, window or room, and
how deep inside a room the pixel lies; and for squares of two pixels what stands there. After
Ronneberger, Fischer & Brox (2015), *U-Net*, with residual blocks (He et al. 2016), a dilated middle
(Yu & Koltun 2016) and sub-pixel upsampling (Shi et al. 2016).
"""

from itertools import pairwise

import torch
from torch import Tensor, nn

from estimator.reading.sight.classes import CLASSES, CONTENTS

# Channels at 1/2, 1/4, 1/8, 1/16 and 1/32 of the picture's size.
WIDTHS = (24, 48, 80, 112, 144)


class Residual(nn.Module):
    """Two convolutions beside a short cut."""

    def __init__(self, channels: int, dilation: int = 1) -> None:
        super().__init__()
        self.body = nn.Sequential(
            nn.Conv2d(channels, channels, 3, padding=dilation, dilation=dilation, bias=False),
            nn.BatchNorm2d(channels),
            nn.ReLU(inplace=True),
            nn.Conv2d(channels, channels, 3, padding=dilation, dilation=dilation, bias=False),
            nn.BatchNorm2d(channels),
        )

    def forward(self, features: Tensor) -> Tensor:
        """Return features of the same shape (N, C, H, W)."""
        return torch.relu(features + self.body(features))


def narrowing(before: int, after: int) -> nn.Sequential:
    """Return a step to half the size."""
    return nn.Sequential(
        nn.Conv2d(before, after, 3, stride=2, padding=1, bias=False),
        nn.BatchNorm2d(after),
        nn.ReLU(inplace=True),
    )


class Widening(nn.Module):
    """A step to twice the size that takes up the features seen at that size before."""

    def __init__(self, before: int, after: int) -> None:
        super().__init__()
        self.up = nn.Sequential(nn.Conv2d(before, 4 * after, 1, bias=False), nn.PixelShuffle(2))
        self.join = nn.Sequential(
            nn.Conv2d(2 * after, after, 3, padding=1, bias=False),
            nn.BatchNorm2d(after),
            nn.ReLU(inplace=True),
        )
        self.blend = Residual(after)

    def forward(self, deep: Tensor, seen: Tensor) -> Tensor:
        """Return features of the shape of ``seen``."""
        joined: Tensor = self.join(torch.cat([self.up(deep), seen], dim=1))
        return self.blend(joined)  # type: ignore[no-any-return]


class PlanNetwork(nn.Module):
    """Pictures (N, 3, H, W) in 0..1 to class scores (N, 5, H, W), depth and contents.

    H and W are multiples of 32. Depth (N, 1, H, W) is the distance to the edge of the room as a
    share of ``DEEPEST_PX``, 1 where deeper, before the logistic function. Scores of contents are
    (N, C, H/2, W/2).
    """

    def __init__(self) -> None:
        super().__init__()
        first = WIDTHS[0]
        self.stem = nn.Sequential(narrowing(3, first), Residual(first))
        self.down = nn.ModuleList(
            nn.Sequential(narrowing(before, after), Residual(after), Residual(after))
            for before, after in pairwise(WIDTHS)
        )
        self.middle = nn.Sequential(*(Residual(WIDTHS[-1], dilation) for dilation in (2, 4, 8)))
        self.up = nn.ModuleList(Widening(before, after) for before, after in pairwise(WIDTHS[::-1]))
        self.head = nn.Sequential(
            nn.Conv2d(first, 4 * (len(CLASSES) + 1), 3, padding=1), nn.PixelShuffle(2)
        )
        self.contents = nn.Conv2d(first, len(CONTENTS), 3, padding=1)

    def forward(self, pictures: Tensor) -> tuple[Tensor, Tensor, Tensor]:
        """Return class scores, depth and scores of contents, before their squashing functions."""
        features = [self.stem(pictures)]
        for step in self.down:
            features.append(step(features[-1]))
        deep = self.middle(features.pop())
        for step in self.up:
            deep = step(deep, features.pop())
        out = self.head(deep)
        return out[:, : len(CLASSES)], out[:, len(CLASSES) :], self.contents(deep)
