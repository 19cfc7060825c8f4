"""Scales of drawings as they are stated on the sheet, and the sizes of sheets."""

import re

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import Metres, Ratio, checked
from estimator.quantities.lengths import length, quoted
from estimator.quantities.tokens import INCH, number, plain

_REMEDY = 'write it like 1:50, 1:100 @ A3 or 1/4" = 1\'-0"'

_SHEETS = {
    "A0": (0.841, 1.189),
    "A1": (0.594, 0.841),
    "A2": (0.420, 0.594),
    "A3": (0.297, 0.420),
    "A4": (0.210, 0.297),
    "LETTER": (8.5 * INCH, 11 * INCH),
    "TABLOID": (11 * INCH, 17 * INCH),
    "ANSI A": (8.5 * INCH, 11 * INCH),
    "ANSI B": (11 * INCH, 17 * INCH),
    "ANSI C": (17 * INCH, 22 * INCH),
    "ANSI D": (22 * INCH, 34 * INCH),
    "ARCH C": (18 * INCH, 24 * INCH),
    "ARCH D": (24 * INCH, 36 * INCH),
    "ARCH E": (36 * INCH, 48 * INCH),
}
_SHEET = re.compile(
    r"(?:@|\bat\b|\bon\b|\()?\s?\b(a[0-4]|letter|tabloid|ansi [a-d]|arch [c-e])\b\s?\)?", re.I
)
_RATIO = re.compile(r"^([0-9][0-9.,]{0,8}) ?[:/] ?([0-9][0-9., ]{0,9})$")
_LEAD = re.compile(r"^(?:drawing )?scale\b ?(?:is\b|of\b|[:=])? ?", re.I)
_EQUALS = re.compile(r"\s*(?:=|\bequals\b|\bto\b|\bis\b)\s*", re.I)


@frozen(kw_only=True, field_transformer=checked)
class DrawingScale:
    """A scale stated on a drawing: 1 on the sheet is ``ratio`` on site.

    Parameters
    ----------
    sheet
        The size of sheet it holds for, such as ``A3``; None when none was stated.
    """

    ratio: Ratio
    sheet: str | None = None


def drawing_scale(text: str) -> DrawingScale:
    r"""Read the scale stated on a drawing.

    Raises
    ------
    QuantityError
        When the text is no scale, or one at which nothing can be drawn.

    Notes
    -----
    A copy may have another scale than the original [1]_; a stated scale holds only for the sheet
    size it was drawn for.

    References
    ----------
    .. [1] ISO 5455:1979, Technical drawings: Scales.

    Examples
    --------
    >>> drawing_scale("scale 1:100 @ A3")
    DrawingScale(ratio=100.0, sheet='A3')
    >>> drawing_scale("1/4\" = 1'-0\"").ratio
    48.0
    """
    where = quoted(text)
    line = " ".join(plain(text[:100]).split())
    sheet = None
    if match := _SHEET.search(line):
        sheet = match[1].upper()
        line = (line[: match.start()] + line[match.end() :]).strip()
    line = _LEAD.sub("", line).strip(" .,;")
    if match := _RATIO.match(line):
        drawn, real = (number(side.replace(" ", "")) for side in match.groups())
    else:
        sides = _EQUALS.split(line)
        if len(sides) != 2:
            raise QuantityError(where, "it is no scale of a drawing", _REMEDY)
        drawn, real = (length(side) for side in sides)
    if not (drawn > 0 and real > 0):
        raise QuantityError(where, "one of its sides is not above 0", _REMEDY)
    if not 0.01 <= real / drawn <= 1_000_000:
        raise QuantityError(where, "nothing can be drawn at that scale", _REMEDY)
    return DrawingScale(ratio=round(real / drawn, 9), sheet=sheet)


def sheet_sides(name: str) -> tuple[Metres, Metres]:
    """Return the short and the long side of a sheet of paper, by ISO 216 or the US names.

    Raises
    ------
    QuantityError
        When no sheet is called so.

    Examples
    --------
    >>> sheet_sides("A3")
    (0.297, 0.42)
    """
    key = " ".join(name.upper().split())
    if key not in _SHEETS:
        raise QuantityError(quoted(name), "no sheet has that name", "choose A0 to A4 or ARCH D")
    return _SHEETS[key]
