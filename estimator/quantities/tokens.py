"""Cut text into numbers, units, signs and words, in one pass whose time grows with its length.

A unit is looked for only behind a number, so the ``in`` of "office in the annex" stays a word and
the apostrophe of "Hall's" stays a letter.
"""

import re
from collections.abc import Iterator
from enum import Enum, auto

from attrs import frozen

FOOT, INCH = 0.3048, 0.0254
"""Exact [1]_.

References
----------
.. [1] NIST Special Publication 811 (2008), appendix B.
"""

LENGTH_UNITS = {
    "m": 1.0,
    "cm": 0.01,
    "mm": 0.001,
    "yd": 3 * FOOT,
    "ft": FOOT,
    "in": INCH,
}
"""Metres in one of each unit of length."""

_SPELLINGS = {
    "m": "m metre metres meter meters mtr mtrs",
    "cm": "cm cms centimetre centimetres centimeter centimeters",
    "mm": "mm mms millimetre millimetres millimeter millimeters",
    "yd": "yd yds yard yards",
    "ft": "ft feet foot '",
    "in": 'in ins inch inches "',
}
_UNIT_OF = {word: unit for unit, words in _SPELLINGS.items() for word in words.split()}

_ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
    "fifteen sixteen seventeen eighteen nineteen twenty"
)
NUMBER_WORDS = {word: float(value) for value, word in enumerate(_ONES.split())} | {
    "thirty": 30.0,
    "forty": 40.0,
    "fifty": 50.0,
}
"""Numbers written as words."""

_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅓": "1/3",
    "⅔": "2/3",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_DENOMINATORS = {2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64}
_LONGEST_NUMBER = 15  # digits; more than any real size and still exact as a float

_SAME = str.maketrans(
    dict.fromkeys("\u2019\u2018\u2032\u02b9\u00b4\u0060\u02bc", "'")
    | dict.fromkeys("\u201d\u201c\u2033\u02ba\u201e\u3003", '"')
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-")
    | dict.fromkeys("\u00a0\u202f\u2009\u2007\u3000\t\r", " ")
    | {"\u2044": "/", "\u2215": "/", "\u2715": "*", "\u2a2f": "*", "\u00d7": "*", "\u2217": "*"}
    | {vulgar: f" {plain} " for vulgar, plain in _VULGAR.items()}
)


class Kind(Enum):
    """What a token is."""

    NUMBER = auto()
    FRACTION = auto()
    LENGTH = auto()
    AREA = auto()
    TIMES = auto()
    DASH = auto()
    WORD = auto()
    BREAK = auto()
    SIGN = auto()


@frozen
class Token:
    """A piece of text: ``value`` of a number or fraction, ``unit`` of a length or area."""

    kind: Kind
    text: str
    start: int
    end: int
    value: float = 0.0
    unit: str = ""
    is_word_number: bool = False


_PATTERN = re.compile(
    r"""
      (?P<fraction> [0-9]{1,3} \s? / \s? [0-9]{1,3} (?![0-9.,/]) )
    | (?P<number>   [0-9]+ (?: [.,][0-9]+ )* | \.[0-9]+ )
    | (?P<double>   " | '' )
    | (?P<single>   ' )
    | (?P<square>   (?:square|sq\.?) \s? (?P<base>[a-z]+) \b \.? )
    | (?P<power>    (?P<side>mm|cm|m|ft|in|yd|metres?|meters?|feet|foot)
                    (?: \s? ² | \s? \^2 | 2\b ) )
    | (?P<sq>       sq (?P<short>mm|cm|m|ft|in|yd|yds) \b \.? )
    | (?P<word>     [^\W\d_]+ (?: '(?!')[^\W\d_]+ )* )
    | (?P<times>    \* )
    | (?P<dash>     - )
    | (?P<break>    [\n;,] )
    | (?P<sign>     \S )
    """,
    re.VERBOSE | re.IGNORECASE,
)
_UNIT_BEFORE_X = re.compile(r"([0-9 ])(mm|cm|m|ft|in)x(?=\s?[0-9])", re.IGNORECASE)


def plain(text: str) -> str:
    r"""Return the text with typographic primes, dashes, spaces and fractions in plain letters.

    >>> plain("12’ 6½”")
    '12\' 6 1/2 "'
    """
    return _UNIT_BEFORE_X.sub(r"\1\2 x ", text.translate(_SAME))


def tokens(text: str) -> Iterator[Token]:
    """Yield the tokens of a plain text in order."""
    wants_unit = False
    for match in _PATTERN.finditer(text):
        token = _token(match, wants_unit)
        wants_unit = token.kind in (Kind.NUMBER, Kind.FRACTION) or (
            wants_unit and token.kind is Kind.DASH
        )
        yield token


def number(text: str) -> float:
    """Return a number written with a decimal point or comma; NaN when it could be two numbers.

    A single comma before three digits ("3,450") is taken as a thousands separator; lengths in
    metres, where it is as likely a decimal comma, refuse it themselves.

    >>> number("3,45"), number("1,250"), number("1,234.5"), number("1.234,5")
    (3.45, 1250.0, 1234.5, 1234.5)
    """
    if sum(map(str.isdigit, text)) > _LONGEST_NUMBER:
        return float("nan")
    groups = re.split(r"[.,]", text)
    signs = [sign for sign in text if sign in ".,"]
    grouped = groups[0] not in ("", "0") and all(len(group) == 3 for group in groups[1:])
    if not signs or signs == ["."]:
        return float(text)
    if signs == [","]:
        return float("".join(groups)) if grouped else float(text.replace(",", "."))
    if len(set(signs)) == 1:
        return float("".join(groups)) if grouped else float("nan")
    is_whole_grouped = all(len(group) == 3 for group in groups[1:-1])
    if len(set(signs[:-1])) == 1 and signs[-1] not in signs[:-1] and is_whole_grouped:
        return float("".join(groups[:-1]) + "." + groups[-1])
    return float("nan")


def _token(match: re.Match[str], wants_unit: bool) -> Token:
    text, start, end = match.group(), match.start(), match.end()
    kind = match.lastgroup
    if kind == "number":
        return Token(Kind.NUMBER, text, start, end, value=number(text))
    if kind == "fraction":
        over, under = (int(part) for part in text.split("/"))
        is_real = under in _DENOMINATORS and 0 < over < under
        value = over / under if is_real else float("nan")
        return Token(Kind.FRACTION, text, start, end, value=value)
    if kind in ("square", "power", "sq"):
        base = match.group("base") or match.group("side") or match.group("short")
        if wants_unit and (unit := _UNIT_OF.get(base.lower())):
            return Token(Kind.AREA, text, start, end, unit=unit)
        return Token(Kind.WORD, text, start, end)
    if kind in ("double", "single"):
        if wants_unit:
            return Token(Kind.LENGTH, text, start, end, unit="in" if kind == "double" else "ft")
        return Token(Kind.SIGN, text, start, end)
    if kind == "word":
        return _word(text, start, end, wants_unit)
    plain_kinds = {"times": Kind.TIMES, "dash": Kind.DASH, "break": Kind.BREAK}
    return Token(plain_kinds.get(kind or "", Kind.SIGN), text, start, end)


def _word(text: str, start: int, end: int, wants_unit: bool) -> Token:
    word = text.lower()
    if wants_unit and (unit := _UNIT_OF.get(word)):
        return Token(Kind.LENGTH, text, start, end, unit=unit)
    if word in ("x", "by"):
        return Token(Kind.TIMES, text, start, end)
    if word in NUMBER_WORDS:
        value = NUMBER_WORDS[word]
        return Token(Kind.NUMBER, text, start, end, value=value, is_word_number=True)
    return Token(Kind.WORD, text, start, end)
