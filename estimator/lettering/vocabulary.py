"""Everyday names of rooms in several languages, known even when a letter was misread."""

import re
import tomllib
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from functools import cache
from importlib.resources import files

from attrs import frozen

from estimator.intake.room_names import use_of
from estimator.lettering.spelling import unaccented
from estimator.surfaces.uses import RoomUse

_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*")
_PARTS = re.compile(r"\s*[/+&]\s*")
_SHORTENED = re.compile(r"'d\b")  # cup'd
_AT_HOME = "at_home"
_SPELLED_OUT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss"})

ANY = "room"
"""The use of rooms nobody knows anything about."""

OUTDOORS = "balcony"
"""The use of balconies, terraces and gardens."""

# Shorter words have too many neighbours to be guessed.
_SHORTEST_GUESSED = 5
_ALIKE = 0.82


@frozen
class Vocabulary:
    """Uses of rooms by what they are called, in plain lower case without accents.

    Parameters
    ----------
    at_home
        Words that mean another use on the plan of a dwelling.
    """

    uses: Mapping[str, str]
    at_home: Mapping[str, str]
    spellings: frozenset[str]

    def use_of(self, name: str, *, at_home: bool = False) -> str | None:
        """Return the use of a room of that name, its first part first; None when none is known."""
        uses = {**self.uses, **self.at_home} if at_home else self.uses
        plain = _SHORTENED.sub("d", unaccented(name))
        found = (use_of(part, uses) for part in _PARTS.split(plain))
        return next((use for use in found if use), None) or use_of(plain, uses)

    def mended(self, name: str) -> str:
        """Return the name with each word that is nearly a known one spelled like it."""
        return _WORD.sub(lambda match: self._mended_word(match[0]), name)

    def _mended_word(self, word: str) -> str:
        plain = unaccented(word)
        if len(word) < _SHORTEST_GUESSED or "'" in word or plain in self.spellings:
            return word
        near = get_close_matches(plain, self.spellings, n=1, cutoff=_ALIKE)
        if not near or plain.rstrip("s") == near[0].rstrip("s"):
            return word
        if word.islower():
            return near[0]
        return near[0].upper() if word.isupper() else near[0].capitalize()


def vocabulary(uses: Iterable[RoomUse]) -> Vocabulary:
    """Return the words of the book's uses together with those of other languages.

    Examples
    --------
    >>> kitchen = RoomUse(slug="kitchen", label="Kitchen", words=("kitchen",), ceiling_height=2.4,
    ...                   zone="general", contents=(), touch_points=(), source="", as_of="")
    >>> words = vocabulary([kitchen])
    >>> words.use_of("CUISINE"), words.use_of("Küche / Essen"), words.mended("Kitchn")
    ('kitchen', 'kitchen', 'Kitchen')
    """
    known = {use.slug: use.words for use in uses}
    words = {_key(word): slug for slug, own in known.items() for word in own}
    at_home: dict[str, str] = {}
    for language, slug, word in _lettered_words():
        if slug in known:
            for spelling in {word, word.translate(_SPELLED_OUT)}:
                (at_home if language == _AT_HOME else words)[_key(spelling)] = slug
    return Vocabulary(
        uses=words,
        at_home=at_home,
        spellings=frozenset(part for word in words for part in word.split()),
    )


def _key(word: str) -> str:
    """Return a name as `use_of` compares it: its words and nothing between them."""
    return " ".join(_WORD.findall(unaccented(word)))


@cache
def _lettered_words() -> tuple[tuple[str, str, str], ...]:
    """Return the language, use and word of every entry of the file."""
    text = files("estimator.lettering").joinpath("room_words.toml").read_text("utf-8")
    return tuple(
        (language, slug, word)
        for language, uses in tomllib.loads(text).items()
        for slug, words in uses.items()
        for word in words
    )
