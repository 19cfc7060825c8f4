"""Sizes of rooms and areas as plans letter them."""

import re
from collections.abc import Sequence
from itertools import product

from attrs import evolve, field, frozen

from estimator.errors import QuantityError
from estimator.lettering.lengths import Lettered, Way, lettered_lengths
from estimator.lettering.spelling import flat, with_digits
from estimator.measures import Metres, Share, SquareMetres, checked
from estimator.quantities.areas import area

# One figure in metres and one in feet agree when they are the same but for rounding.
_SAME_SIDE: Share = 0.03
_LONGEST_ROOM: Metres = 60.0
_NARROWEST: Share = 1 / 20
# Sides of nearly all rooms; a reading outside them is rather a wrong one (common practice).
_USUAL_SIDES = (0.8, 15.0)
_UNUSUAL: Share = 0.2


@frozen(kw_only=True, field_transformer=checked)
class Size:
    """One way to read the printed width and depth of a room."""

    width: Metres
    depth: Metres
    way: Way
    step: Metres
    likelihood: Share

    def __str__(self) -> str:
        return f"{self.width:.2f} × {self.depth:.2f} m"


def _likeliest_first(sizes: Sequence[Size]) -> tuple[Size, ...]:
    return tuple(sorted(sizes, key=lambda size: -size.likelihood))


@frozen(kw_only=True)
class Sizes:
    """All ways to read one printed size, the likeliest first."""

    ways: tuple[Size, ...] = field(converter=_likeliest_first)

    @property
    def likeliest(self) -> Size:
        """The way that is taken."""
        return self.ways[0]


_BETWEEN = re.compile(r"\s*(?:(?<=[0-9'\"msMS )-])[xX%](?=[\s0-9(lIoO])|\bby\b|\bpar\b|\bpor\b)\s*")
_METRES = re.compile(r"(?<=[0-9])\s?(?:mts?|mtrs?|metros?|met(?:re|er)s?|mètres?)\b\.?", re.I)
_REMARKS = tuple(
    re.compile(pattern, re.I)
    for pattern in (
        r"\b(?:narrowing|reducing|widening) to [0-9][^x]*?(?= ?x |$)",
        r"(?:\b(?:in)?to|\+|\bplus|\bincl?(?:uding|\.)?|\bexcl?(?:uding|\.)?) (?:the )?"
        r"(?:bay|recess|alcove|eaves|fitted |built-in |door|wardrobe|robe|cupboard)[a-z ]*?"
        r"(?= ?x |[^a-z ]|$)",
        r"\b(?:max(?:imum|imal)?|min(?:imum|imal)?|approx(?:imate(?:ly)?)?|overall|measuring|"
        r"environ|env|aprox|ca|c|circa)\b\.?",
        r"(?<=[0-9m'\"]) ?\(? ?\b(?:wide|long|deep|[wlbdh])\b\.? ?\)?",
        r"\b[wlbdh] ?[:=]? ?(?=[0-9])",
        r"\( ?\)",
    )
)
_ASIDE = re.compile(r"\([^()]*(?:\)|$)|/[^/x]*(?= ?x |$)")  # the same side in another unit
_LOST_TIMES = re.compile(r"(?<=m)\s+(?=[0-9])|(?<=\")\s*(?=[0-9]{1,2}')")
_UNIT_BEHIND = re.compile(r"(?<=[0-9])\s?(mm|cm|m)$", re.I)


def sizes(text: str) -> Sizes | None:
    r"""Return the width and depth a text gives, in every way it may be read; None for no size.

    Examples
    --------
    >>> str(sizes("12'-6\" x 10'0\"").likeliest), str(sizes("3.45m × 4.20m").likeliest)
    ('3.81 × 3.05 m', '3.45 × 4.20 m')
    >>> str(sizes("345 × 420").likeliest), str(sizes("3450 x 4200").likeliest)
    ('3.45 × 4.20 m', '3.45 × 4.20 m')
    >>> sizes("Bedroom 2") is None
    True
    """
    line = _without_remarks(with_digits(flat(text))).strip(" ()[].,·;:-_")
    return _sizes(line) or _sizes(_ASIDE.sub(" ", line))


def _sizes(line: str) -> Sizes | None:
    sides = [side for side in _BETWEEN.split(line) if side.strip()]
    if len(sides) == 1:
        sides = _LOST_TIMES.split(line)
    if len(sides) not in (2, 3):
        return None
    # A unit behind the last side is that of all.
    if (unit := _UNIT_BEHIND.search(sides[-1])) and sides[0][-1:].isdigit():
        sides = [f"{side} {unit[1]}" for side in sides[:-1]] + sides[-1:]
    read = [lettered_lengths(side.strip(" -")) for side in sides[:2]]
    found = [_size(*pair) for pair in product(*read)]
    kept = [size for size in found if size is not None]
    return Sizes(ways=kept) if kept else None


def _without_remarks(line: str) -> str:
    """Return a size without what is said of it: where it is measured, which side is which."""
    line = _METRES.sub("m", line)
    for pattern in _REMARKS:
        line = pattern.sub(" ", line)
    return " ".join(line.split())


def _size(width: Lettered, depth: Lettered) -> Size | None:
    """Return the size of two sides lettered in the same way."""
    if width.way is not depth.way:
        return None
    short, long = sorted((width.value, depth.value))
    if long > _LONGEST_ROOM or short < _NARROWEST * long:
        return None
    least, most = _USUAL_SIDES
    unusual = (short < least) + (long > most)
    return Size(
        width=width.value,
        depth=depth.value,
        way=width.way,
        step=max(width.step, depth.step),
        likelihood=width.likelihood * depth.likelihood * _UNUSUAL**unusual,
    )


def agreeing(one: Sizes, other: Sizes) -> Sizes | None:
    """Return the ways in which a size in metres and the same in feet agree; None when none do."""
    found = []
    for size, same in product(one.ways, other.ways):
        if size.way is same.way:
            continue
        apart = max(abs(size.width / same.width - 1), abs(size.depth / same.depth - 1))
        if apart <= _SAME_SIDE:
            finer = min(size, same, key=lambda each: (each.step, each.way is Way.FEET))
            sure = 1 - (1 - size.likelihood) * (1 - same.likelihood) * 0.1
            found.append(evolve(finer, likelihood=sure))
    return Sizes(ways=found) if found else None


_UNIT = r"""
    (?P<metric> m\s?[²2](?![0-9.,]) | m\s?[²?] | m\^2 | sqm | qm\b
              | sq\.?\s?m(?:tr?s?|et(?:re|er)s?)?\b\.?
              | square\smet(?:re|er)s?\b | m(?:ètres?|etres?)\scarr[ée]s?)
  | (?P<feet>  ft\s?[²2](?!\s?in|[0-9.,'"]) | ft\^2 | sqft | s\.?f\b
              | s[qg][.,]?\s?f(?:(?:ee)?t)?\b\.? | square\sfeet\b )
"""
_AREA = re.compile(
    rf"(?P<number>(?<![a-z]\s)[0-9]{{1,3}}(?:\s[0-9]{{3}})+(?:[.,][0-9]+)?|[0-9][0-9.,']*)"
    rf"\s?(?:{_UNIT})",
    re.X | re.I,
)


def without_areas(text: str) -> str:
    """Return what a text says beside its areas: what stands before them, or else behind.

    Examples
    --------
    >>> without_areas("Chambre 1 : 11,50 m²"), without_areas("12,3 m² Küche")
    ('Chambre 1', 'Küche')
    """
    line = flat(text)
    before, _, behind = _AREA.sub("\n", line).partition("\n")
    return before.strip(" (:=-,/") or behind.replace("\n", " ").strip(" ):=-,/")


def areas(text: str) -> tuple[SquareMetres, ...]:
    """Return every area a text gives, the finer figure first where two agree.

    Examples
    --------
    >>> areas("14,2 m²"), [round(value, 2) for value in areas("770 sq ft / 71.5 sq m")]
    ((14.2,), [71.5, 71.54])
    """
    found = []
    for match in _AREA.finditer(with_digits(flat(text))):
        unit = "m²" if match["metric"] else "sq ft"
        try:
            value = area(f"{match['number'].rstrip('.,').replace(' ', '')} {unit}")
        except QuantityError:
            continue
        if value > 0:
            found.append((match["metric"] is None, value))
    return tuple(value for _, value in sorted(found, key=lambda each: each[0]))
