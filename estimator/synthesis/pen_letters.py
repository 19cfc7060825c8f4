"""Hand lettering: capitals as strokes of the pen, for sketches."""

import tomllib
from functools import cache
from importlib.resources import files

import numpy as np

from estimator.synthesis.layouts import Ring

_GRID_HEIGHT = 6.0


@cache
def _letters() -> tuple[dict[str, list[Ring]], dict[str, float]]:
    text = files("estimator.synthesis").joinpath("letters.toml").read_text(encoding="utf-8")
    data = tomllib.loads(text)
    strokes = {
        letter: [np.array(part.split(), float).reshape(-1, 2) for part in parts.split(";")]
        for letter, parts in data["strokes"].items()
    }
    return strokes, data["advance"]


def pen_width(text: str, size: float) -> float:
    """Return the width of a line whose capitals are so high, in the unit of the height."""
    _, advance = _letters()
    total = sum(advance.get(letter, advance["default"]) for letter in text.upper())
    return total * size / _GRID_HEIGHT


def pen_strokes(
    text: str, at: tuple[float, float], size: float, *, upright: bool = False
) -> list[Ring]:
    """Return a line of capitals as strokes, centred at a point; unknown letters stay blank."""
    strokes, advance = _letters()
    scale = size / _GRID_HEIGHT
    lines, x = [], -pen_width(text, size) / 2
    for letter in text.upper():
        for stroke in strokes.get(letter, ()):
            lines.append((stroke - (0, _GRID_HEIGHT / 2)) * scale + (x, 0))
        x += advance.get(letter, advance["default"]) * scale
    if upright:
        lines = [np.stack([line[:, 1], -line[:, 0]], axis=1) for line in lines]
    return [line + at for line in lines]
