"""Large pale words over a whole picture, through which it still shows."""

import numpy as np

from estimator.synthesis.paper import Picture, Pixels
from estimator.synthesis.styles import WHITE

_WORDS = ("LARKFIELD", "SAMPLE", "DRAFT", "COPY", "PREVIEW")


def watermarked(picture: Picture, rng: np.random.Generator) -> Picture:
    """Return a picture under one word, its ink darkened and its paper greyed by it."""
    tall, wide = picture.shape[:2]
    mark = Pixels.blank(wide, tall, WHITE)
    light = int(rng.integers(140, 235))
    mark.write(
        str(rng.choice(_WORDS)),
        (wide * rng.uniform(0.3, 0.7), tall * rng.uniform(0.3, 0.7)),
        wide * rng.uniform(0.08, 0.2),
        (light, light, light),
        font="bold",
        upright=bool(rng.random() < 0.3),
    )
    return (picture.astype(np.uint16) * mark.finished() // 255).astype(np.uint8)
