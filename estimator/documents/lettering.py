"""Text as papers can write it: on one line, in letters that some face has."""

import unicodedata
from functools import lru_cache
from itertools import groupby

from estimator.documents.faces import font, is_written, runs

MISSING = "?"
"""Stands for characters that no face has."""

_NO_CHARACTERS = "\ufffe\uffff"
_UNSEEN = {"Cf", "Mn", "Me"}
"""Categories of Unicode that take no place of their own: joiners, accents, selectors."""


@lru_cache(maxsize=8192)
def width(line: str, size: float, bold: bool = False) -> float:
    """Return how wide a line of text is drawn at a size, in the unit of the size."""
    return sum(font(face).stringWidth(piece, size) for face, piece in runs(line, bold))


@lru_cache(maxsize=8192)
def plain(text: str) -> str:
    r"""Return the text on one line, free of characters that no file format takes.

    >>> plain("Küche\t 厨房\x00\n")
    'Küche 厨房'
    """
    kept = (
        " " if character.isspace() else character
        for character in unicodedata.normalize("NFC", text)
        if character.isspace()
        or (unicodedata.category(character) not in {"Cc", "Cs"} and character not in _NO_CHARACTERS)
    )
    return " ".join("".join(kept).split())


@lru_cache(maxsize=8192)
def legible(text: str) -> str:
    r"""Return the text on one line, with a question mark for what cannot be written.

    >>> legible("Küche\t Κουζίνα\x00 厨房 ครัว रसोई")
    'Küche Κουζίνα 厨房 ครัว ?'
    """
    return "".join(
        "".join(letters) if written else MISSING
        for written, letters in groupby(_seen(plain(text)), is_written)
    )


def is_legible(text: str) -> bool:
    """Whether there is a letter for all of a text."""
    return all(map(is_written, _seen(plain(text))))


def _seen(line: str) -> str:
    """Return a line without what takes no place of its own and cannot be written."""
    if line.isascii():
        return line
    return "".join(
        letter
        for letter in line
        if unicodedata.category(letter) not in _UNSEEN or is_written(letter)
    )


def shortened(text: str, most: float, size: float, bold: bool = False) -> str:
    """Return the text, cut with an ellipsis where it is wider than allowed."""
    if width(text, size, bold) <= most:
        return text
    kept = text
    while kept and width(kept.rstrip() + "…", size, bold) > most:
        kept = kept[:-1]
    return kept.rstrip() + "…"
