"""The colours that paper and screen share."""

from collections.abc import Iterable

from estimator.measures import KilogramsPerCubicMetre
from estimator.quote.colour import luminance

INK = "#1f2a37"
MUTED = "#5d6876"
PAPER = "#faf8f4"
WHITE = "#ffffff"
HAIRLINE = "#d9d4c8"
ACCENT = "#0f5c5c"
DOUBT = "#b7791f"
ALARM = "#a33a2b"

STRENGTH_RAMP = ("#d3ebe4", "#93cdc0", "#4fa798", "#1f7a72", "#0c4a4a")
"""From the weakest solution to the strongest."""

_STEPS: dict[int, tuple[int, ...]] = {0: (), 1: (1,), 2: (0, 2), 3: (0, 1, 3), 4: (0, 1, 2, 3)}
"""Steps of the ramp for so many strengths: well apart, and as light as that allows."""

CONFIDENCE_RAMP = ("#f3dcb4", "#f5ecd8", "#e3efe9", "#cfe6dd")
"""From rooms hardly believed in to rooms read without doubt."""

USE_TINTS = (
    "#d6e6e2",
    "#e9dfc9",
    "#dbe2ee",
    "#ecd9d2",
    "#e2e6cf",
    "#e3daea",
    "#d3e4ec",
    "#efe4b8",
    "#d9d9d4",
    "#cfe3c9",
)
"""Told apart side by side, none louder than another."""


def strength_colours(
    strengths: Iterable[KilogramsPerCubicMetre],
) -> dict[KilogramsPerCubicMetre, str]:
    """Return a colour for each strength used, by its rank from weak to strong.

    >>> strength_colours([4.0, 0.05, 4.0])
    {0.05: '#d3ebe4', 4.0: '#4fa798'}
    """
    used = sorted(set(strengths))
    last = len(STRENGTH_RAMP) - 1
    if len(used) in _STEPS:
        steps = _STEPS[len(used)]
    else:
        steps = tuple(last * rank // (len(used) - 1) for rank in range(len(used)))
    return {strength: STRENGTH_RAMP[step] for strength, step in zip(used, steps, strict=True)}


def confidence_colour(confidence: float) -> str:
    """Return the colour of a room read with that confidence."""
    steps = len(CONFIDENCE_RAMP)
    return CONFIDENCE_RAMP[min(steps - 1, int(confidence * steps))]


def text_on(fill: str) -> str:
    """Return ink or white, whichever stands out more from the fill.

    Relative luminance and contrast as in WCAG 2.2; the two contrasts are equal near 0.225.

    >>> text_on("#d3ebe4"), text_on("#0c4a4a")
    ('#1f2a37', '#ffffff')
    """
    return INK if luminance(fill) > 0.225 else WHITE
