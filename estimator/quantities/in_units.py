"""Measures inside a sentence, said again in the units of whoever reads it."""

import re
from collections.abc import Callable, Collection

from estimator.measures import CubicMetres, Metres, SquareMetres
from estimator.quantities.shown import Units, shown_area, shown_length, shown_volume

_NUMBER = r"\d+(?:,\d{3})*(?:\.\d+)?"
_SI = {"m²": 1.0, "m": 1.0, "cm": 1e-2, "mm": 1e-3, "L": 1e-3, "mL": 1e-6}
"""Sizes of the units that the reckoning's sentences use, in SI units."""

_MEASURE = re.compile(
    rf"(?<![\w.,:/])(?P<numbers>{_NUMBER}(?: × {_NUMBER})*) ?(?P<unit>{'|'.join(_SI)})(?![\w²³/])"
)

_Shown = Callable[[Metres | SquareMetres | CubicMetres, Units], str]
_SHOWN: dict[str, _Shown] = {"m²": shown_area, "L": shown_volume, "mL": shown_volume}


def in_units(sentence: str, units: Units, names: Collection[str] = ()) -> str:
    r"""Return a sentence in metric units with its lengths, areas and volumes in a reader's units.

    Parameters
    ----------
    names
        Names that somebody gave, which stay as they are whatever they hold.

    >>> in_units("Hall, 5.02 × 2 m, is 12.5 m² and 2.4 m high.", Units.US)
    'Hall, 16\' 5½" × 6\' 6½", is 135 ft² and 7\' 10½" high.'
    """
    if units is Units.METRIC:
        return sentence
    kept = sorted(filter(_MEASURE.search, names), key=len, reverse=True)
    if not kept:
        return _MEASURE.sub(_said, sentence)
    parts = re.split(f"({'|'.join(map(re.escape, kept))})", sentence)
    return "".join(part if part in kept else _MEASURE.sub(_said, part) for part in parts)


def _said(found: re.Match[str]) -> str:
    unit = found["unit"]
    show = _SHOWN.get(unit, shown_length)
    values = (
        float(number.replace(",", "")) * _SI[unit] for number in found["numbers"].split(" × ")
    )
    return " × ".join(show(value, Units.US) for value in values)
