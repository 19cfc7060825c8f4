"""Uses and droplets of a label, as people copy them."""

import re

from estimator.errors import QuantityError
from estimator.measures import Metres
from estimator.quantities.lengths import length, quoted
from estimator.quantities.written import quantity
from estimator.treatment.product import LabelUse

_USE = re.compile(r"^(?:(?P<label>[^:]+):)?(?P<strengths>[^:]+?)(?:,| for )(?P<time>[^:,]+)$")
_RANGE = re.compile(r"^(?P<least>[0-9.,]+)[^0-9.,]*?(?: to |–|-)(?P<most>.+)$")
_UNIT = re.compile(r"^[0-9., ]+(?P<unit>.*)$")
_FINE = re.compile(r"^(?P<number>[0-9.,]+) *(?:µm|μm|um|microns?|micromet(?:re|er)s?)$")
_EXAMPLE = "write it like Hard surfaces: 1000 ppm for 10 min"


def label_uses(text: str) -> tuple[LabelUse, ...]:
    """Read the uses of a label, one on a line.

    Raises
    ------
    QuantityError
        When a line lacks its strength or contact time.

    Examples
    --------
    >>> [use.most for use in label_uses("Hard surfaces: 900 to 1100 ppm for 10 min")]
    [1.1]
    """
    return tuple(_use(line.strip()) for line in text.splitlines() if line.strip())


def droplets(text: str) -> tuple[Metres | None, Metres | None]:
    """Read the size of droplets a label asks for: the least, and the most where it gives one.

    >>> droplets("40 µm")
    (4e-05, None)
    """
    least, most = _between(text.strip())
    sizes = _size(least), _size(most) if most else None
    if not 0 < sizes[0] < 1e-3 or (sizes[1] and not sizes[0] <= sizes[1] < 1e-3):
        raise QuantityError(
            quoted(text), "no droplets of a mist are of that size", "write it like 40 to 80 µm"
        )
    return sizes


def droplet_size(text: str) -> Metres:
    """Read the one size of droplets that a sprayer is said to give.

    >>> droplet_size("55 microns")
    5.5e-05
    """
    size, most = droplets(text)
    if size is None or most is not None:
        raise QuantityError(
            quoted(text), "that is a range", "give the volume median diameter alone, like 55 µm"
        )
    return size


def _size(text: str) -> Metres:
    """Return a size of droplets; no other length is written in thousandths of a millimetre."""
    fine = _FINE.match(text)
    return length(f"{fine['number']} mm") / 1000 if fine else length(text)


def _use(line: str) -> LabelUse:
    match = _USE.match(line)
    if not match:
        raise QuantityError(quoted(line), "it lacks its strength or contact time", _EXAMPLE)
    least, most = _between(match["strengths"].strip())
    return LabelUse(
        label=(match["label"] or "use on the label").strip(),
        least=quantity(least, "kg/m^3"),
        most=quantity(most or least, "kg/m^3"),
        contact_time=quantity(match["time"].strip(), "s"),
    )


def _between(text: str) -> tuple[str, str]:
    """Return the two ends of a range, both with their unit; the second is empty for one figure."""
    match = _RANGE.match(text)
    if not match:
        return text, ""
    unit = _UNIT.match(match["most"])
    return f"{match['least']} {unit['unit'] if unit else ''}", match["most"]
