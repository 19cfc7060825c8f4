"""Text made alike for searching, in any script."""

import unicodedata
from typing import Any

from sqlalchemy import ColumnElement, SQLColumnExpression

from estimator.store.values import CALLED_BY


def folded(*texts: str) -> str:
    """Return texts without differences of case, accents and width.

    >>> folded("École", "MÜLLER Straße"), folded("ＡＢＣ 廚房")
    ('ecole muller strasse', 'abc 廚房')
    """
    apart = unicodedata.normalize("NFKD", " ".join(texts).casefold())
    bare = "".join(letter for letter in apart if not unicodedata.combining(letter))
    return " ".join(unicodedata.normalize("NFC", bare).split())


def occurring(
    words: str, where: SQLColumnExpression[Any], called: SQLColumnExpression[Any] | None = None
) -> list[ColumnElement[bool]]:
    """Return the conditions that each of the words occurs in folded text.

    Parameters
    ----------
    called
        An id; whole what it is called by is a word that is found, too.
    """
    return [
        where.contains(word, autoescape=True)
        if called is None or len(word) != CALLED_BY
        else where.contains(word, autoescape=True) | called.startswith(word, autoescape=True)
        for word in folded(words).split()
    ]
