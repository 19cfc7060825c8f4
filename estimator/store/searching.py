"""Text made alike for searching, in any script."""

import unicodedata
from typing import Any

from sqlalchemy import ColumnElement, SQLColumnExpression


def folded(*texts: str) -> str:
    """Return texts without differences of case, accents and width.

    >>> folded("École", "MÜLLER Straße"), folded("ＡＢＣ 廚房")
    ('ecole muller strasse', 'abc 廚房')
    """
    apart = unicodedata.normalize("NFKD", " ".join(texts).casefold())
    bare = "".join(letter for letter in apart if not unicodedata.combining(letter))
    return " ".join(unicodedata.normalize("NFC", bare).split())


def occurring(words: str, where: SQLColumnExpression[Any]) -> list[ColumnElement[bool]]:
    """Return the conditions that each of the words occurs in folded text."""
    return [where.contains(word, autoescape=True) for word in folded(words).split()]
