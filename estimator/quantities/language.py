"""Measures and days as other languages than English spell them, by CLDR and the SI."""

import re
from datetime import date
from enum import StrEnum
from functools import lru_cache

from babel.dates import format_date
from babel.numbers import get_decimal_symbol, get_group_symbol


class Language(StrEnum):
    """A language that papers for clients are written in."""

    EN = "en"
    FR = "fr"
    ES = "es"


_UNITS = {
    Language.FR: {
        "ft²": "pi²",
        "ft³": "pi³",
        "ft": "pi",
        "US gal": "gal US",
        "US fl oz": "fl oz US",
    },
    Language.ES: {"US gal": "gal\u00a0EE.\u00a0UU.", "US fl oz": "fl oz\u00a0EE.\u00a0UU."},
}
"""Units that are not the same everywhere, the longer ones first."""

_GROUPED = re.compile(r"(?<=\d),(?=\d{3}(?!\d))")
_DECIMAL = re.compile(r"(?<=\d)\.(?=\d)")
_PER_CENT = re.compile(r"(?<=\d) ?%")
_DAYS = {Language.EN: "d MMMM y"}
"""English papers put the day first, so that no reader takes it for a month."""


@lru_cache(maxsize=8192)
def respelled(measure: str, language: Language) -> str:
    """Return a measure that is spelled in English as a language spells it.

    >>> respelled("2.5 US gal", Language.FR)
    '2,5 gal US'
    """
    if language is Language.EN:
        return measure
    written = _DECIMAL.sub("\0", measure)
    written = _GROUPED.sub(get_group_symbol(language), written)
    written = _PER_CENT.sub("\u00a0%", written.replace("\0", get_decimal_symbol(language)))
    for english, foreign in _UNITS[language].items():
        if english in written:
            return written.replace(english, foreign)
    return written


def shown_day(written: str, language: Language = Language.EN) -> str:
    """Return an ISO date in words that no reader takes for another day.

    >>> shown_day("2026-03-02"), shown_day("2026-03-02", Language.ES)
    ('2 March 2026', '2 de marzo de 2026')

    In French the first of a month is an ordinal, which CLDR does not know.

    >>> shown_day("2026-04-01", Language.FR)
    '1er avril 2026'
    """
    try:
        day = date.fromisoformat(written)
    except ValueError:
        return written
    shown = format_date(day, _DAYS.get(language, "long"), locale=language)
    return f"1er{shown[1:]}" if language is Language.FR and day.day == 1 else shown
