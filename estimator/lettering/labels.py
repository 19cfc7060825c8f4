"""What each line of lettering says: a room's name, its size, an area, a length, a scale."""

import re
from collections.abc import Iterable, Iterator
from contextlib import suppress

from attrs import frozen

from estimator.errors import QuantityError
from estimator.lettering.lengths import Lettered, lettered_lengths
from estimator.lettering.line import Line
from estimator.lettering.sizes import Sizes, agreeing, areas, sizes, without_areas
from estimator.lettering.spelling import flat, unaccented
from estimator.lettering.vocabulary import Vocabulary
from estimator.measures import SquareMetres, checked
from estimator.quantities.scales import DrawingScale, drawing_scale


@frozen(kw_only=True)
class RoomName:
    """What a room is called; ``use`` is None when no word of it is known."""

    line: Line
    text: str
    use: str | None


@frozen(kw_only=True)
class RoomSize:
    """A room's printed width and depth."""

    line: Line
    sizes: Sizes


@frozen(kw_only=True, field_transformer=checked)
class FloorArea:
    """A floor area: of the room it stands in, or a total when it says so or stands outside."""

    line: Line
    area: SquareMetres
    says_total: bool


@frozen(kw_only=True)
class WallLength:
    """One length, as stands along a wall; all ways to read it, the likeliest first."""

    line: Line
    ways: tuple[Lettered, ...]


@frozen(kw_only=True)
class StatedScale:
    """A scale of the drawing."""

    line: Line
    scale: DrawingScale


@frozen(kw_only=True)
class Mark:
    """A bare number, as stands along a scale bar."""

    line: Line
    number: float


@frozen(kw_only=True)
class NotToScale:
    """A notice that the drawing is not to scale."""

    line: Line


Label = RoomName | RoomSize | FloorArea | WallLength | StatedScale | Mark | NotToScale

_NOT_TO_SCALE = re.compile(
    r"not\s*to\s*scale|do\s*not\s*scale|\bn\.?t\.?s\b|illustrati(?:on|ve)\s*purposes"
    r"|nicht\s*massst(?:ab|aeb)|unmassst(?:ab|aeb)|ohne\s*massstab"
    r"|sin\s*escala|no\s*(?:esta\s*)?a\s*escala|(?:pas|non)\s*a\s*l\s*echelle|sans\s*echelle"
    r"|echelle\s*non\s*respectee"
)
# Scales in use are of tens or fives; "Bedroom 1 : 12" is none.
_RATIO = re.compile(
    r"(?<![0-9:])1\s?:\s?[0-9]{1,3}[05](?![0-9:]|[.,][0-9])(?:\s?(?:@|at|on|\()?\s?A[0-4]\b)?", re.I
)
_FRACTION = re.compile(
    r"(?:scale|[eé]ch(?:elle)?|esc(?:ala)?|ma(?:ss|ß)stab|\bM)[. ]*[:=]?"
    r"\s?1\s?/\s?([0-9]{1,3}[05])",
    re.I,
)
_EQUATION = re.compile(r"[0-9][0-9 /]*\s?\"\s?=\s?[0-9]+\s?'(?:\s?-?\s?[0-9]+\s?\")?")
_TOTAL = re.compile(
    r"total|gross|intern|approx|floor\s*area|\bgia\b|\bgea\b|\bnet\b|inside|superficie|surface"
    r"|\bsup\b|\bsurf\b|\bs?hab\b|\bshon?b?\b|carrez|habitable|util|construida"
    r"|flache|flaeche|geschoss|wohnfl|nutzfl|\bwfl\b|\b[bn]gf\b"
)
_BETWEEN_UNITS = re.compile(r"\s*[/(|\[]\s*|(?<=m)\s+(?=[0-9]+')|(?<=[\"'])\s+(?=[0-9]+[.,][0-9])")
_NUMBER = re.compile(r"[0-9]{1,3}(?:[.,][0-9])?")
_LETTER = re.compile(r"[^\W\d_]")
# Names seen less surely than this are rather furniture and arrows taken for letters.
_LEAST_SURE_NAME = 0.7
_LONGEST_NAME = 40
_MOST_WORDS = 6
_CEILING = re.compile(r"\b(?:ceilings?|height|high|hsp|htp|raumhohe|lh|rh|altura|hauteur)\b")
_NO_NAMES = {"in", "up", "dn", "down", "out", "no", "of", "ff", "ch", "nord", "north", "on", "off"}


def labels_of(lines: Iterable[Line], words: Vocabulary) -> tuple[Label, ...]:
    """Return what the lines say; a line with a name and a size gives both."""
    return tuple(label for line in lines for label in _labels(line, words))


def _labels(line: Line, words: Vocabulary) -> Iterator[Label]:
    text = flat(line.text)
    plain = unaccented(text)
    if _NOT_TO_SCALE.search(plain):
        yield NotToScale(line=line)
        return
    if printed := areas(text):
        total = bool(_TOTAL.search(plain))
        yield FloorArea(line=line, area=printed[0], says_total=total)
        if total:
            return
        text = without_areas(text)
    if (scale := _scale(text)) is not None:
        yield StatedScale(line=line, scale=scale)
    elif found := _size(text):
        name, printed_size = found
        yield RoomSize(line=line, sizes=printed_size)
        yield from _name(line, name, words)
    else:
        ways = _lengths(text)
        if _NUMBER.fullmatch(text):
            yield Mark(line=line, number=float(text.replace(",", ".")))
        if ways:
            yield WallLength(line=line, ways=ways)
        else:
            yield from _name(line, text, words)


def _scale(text: str) -> DrawingScale | None:
    for pattern, shape in ((_RATIO, "{}"), (_FRACTION, "1:{}"), (_EQUATION, "{}")):
        if match := pattern.search(text):
            with suppress(QuantityError):
                return drawing_scale(shape.format(match[match.lastindex or 0]).replace("(", " "))
    return None


def _size(text: str) -> tuple[str, Sizes] | None:
    """Return the size a line ends with, in one unit or in two, and the name before it."""
    starts = [0] + [match.end() for match in re.finditer(r"[ (:]", text)]
    for start in starts:
        head, tail = text[:start], text[start:]
        if start and not _LETTER.search(head):
            continue
        found = sizes(tail) or _size_in_two_units(tail)
        if found:
            return head.strip(" -:,("), found
    return None


def _size_in_two_units(text: str) -> Sizes | None:
    """Return the size that a text gives once in metres and once in feet."""
    for match in _BETWEEN_UNITS.finditer(text):
        one, other = sizes(text[: match.start()]), sizes(text[match.end() :])
        if one and other:
            return agreeing(one, other) or one
    return None


def _lengths(text: str) -> tuple[Lettered, ...]:
    """Return the ways to read a length; one without any unit must have decimals or thousands."""
    if re.fullmatch(r"[0-9]{1,2}", text) or not re.search("[0-9]", text):
        return ()
    return lettered_lengths(text)


def _name(line: Line, text: str, words: Vocabulary) -> Iterator[RoomName]:
    name = text.strip(" -:,.;()[]=→←↑↓*/")
    if _CEILING.search(unaccented(name)):
        return
    letters = len(_LETTER.findall(name))
    if (
        letters < 2
        or letters < 0.5 * len(name.replace(" ", ""))
        or line.confidence < _LEAST_SURE_NAME
    ):
        return
    if len(name) > _LONGEST_NAME or len(name.split()) > _MOST_WORDS or name.lower() in _NO_NAMES:
        return
    name = re.sub(r"(?<=[^\W\d_])(?=[0-9])", " ", words.mended(name))
    slash = "/" if text.rstrip().endswith("/") else ""
    yield RoomName(line=line, text=_cased(name.rstrip("/ ")) + slash, use=words.use_of(name))


def _cased(name: str) -> str:
    """Return a name in capitals as a plain one; codes of one or two letters stay.

    >>> _cased("MASTER BEDROOM"), _cased("WC 2"), _cased("Salle à manger")
    ('Master Bedroom', 'WC 2', 'Salle à manger')
    """
    if not name.isupper():
        return name[:1].upper() + name[1:]
    return re.sub(
        r"[^\W\d_]{3,}(?:'[^\W\d_]+)?", lambda match: match[0][0] + match[0][1:].lower(), name
    )
