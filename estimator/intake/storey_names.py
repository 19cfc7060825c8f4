"""Names of storeys as plans letter them, in several languages."""

import re
import tomllib
import unicodedata
from functools import cache, cached_property
from importlib.resources import files

from attrs import frozen

_NUMBERED, _ELSEWHERE = "numbered", "elsewhere"
_MOST_WORDS = 9  # of a caption; more are a sentence
_LONG = 8  # letters of a word that is known as part of another, too
_FEW_WORDS = 3  # in a line where a shorter word counts
_ORDINAL = r"(?P<ending>st|nd|rd|th|ere|er|eme|e|o|a)? ?"


@frozen(kw_only=True)
class StoreyName:
    """What a storey is called, and its level counted from the street."""

    text: str
    level: int


def storey_name(text: str) -> StoreyName | None:
    """Return the storey that a line of lettering names; None when it names none or several.

    Examples
    --------
    >>> storey_name("GROUNDFLOOR PLAN 1:100"), storey_name("Plan du premier étage").level
    (StoreyName(text='Ground floor', level=0), 1)
    >>> storey_name("2. OG").level, storey_name("Level 3").text, storey_name("Wohnung 2 EG").level
    (2, 'Level 3', 0)
    >>> storey_name("Ground floor, 1st floor"), storey_name("Floor area 45 m²")
    (None, None)
    """
    plain = _plain(text)
    tokens = plain.split()
    count = sum(token.isalpha() for token in tokens)
    if count > _MOST_WORDS or not _elsewhere().isdisjoint(tokens):
        return None
    found: dict[int, StoreyName] = {}
    for word in _words():
        if count <= _FEW_WORDS or word.level is None or len(word.letters) >= _LONG:
            while match := word.pattern.search(plain):
                name = word.storey(match)
                found.setdefault(name.level, name)
                plain = f"{plain[: match.start()]}|{plain[match.end() :]}"
    return next(iter(found.values())) if len(found) == 1 else None


@frozen(kw_only=True)
class _Word:
    """A word for a storey; ``level`` is None when its number stands before or after it."""

    shown: str
    level: int | None

    @property
    def letters(self) -> str:
        """The word as it is looked for, without spaces."""
        return _plain(self.shown).replace(" ", "")

    @cached_property
    def pattern(self) -> re.Pattern[str]:
        """What finds it in plain text, spaces lost or not."""
        word = _plain(self.shown).replace(" ", " ?")
        if self.level is None:
            return re.compile(
                rf"\b{word} (?P<after>[0-9]{{1,2}})\b|"
                rf"\b(?P<before>[0-9]{{1,2}}) {_ORDINAL}{word}\b"
            )
        return re.compile(word if len(self.letters) >= _LONG else rf"\b{word}\b")

    def storey(self, match: re.Match[str]) -> StoreyName:
        """Return the storey that was found."""
        shown = self.shown
        if self.level is not None:
            return StoreyName(text=shown[:1].upper() + shown[1:], level=self.level)
        if match["after"]:
            text = f"{shown[:1].upper()}{shown[1:]} {match['after']}"
            return StoreyName(text=text, level=int(match["after"]))
        ending = match["ending"] or "."
        return StoreyName(text=f"{match['before']}{ending} {shown}", level=int(match["before"]))


def _plain(text: str) -> str:
    """Return lower-case letters without accents, and digits, in words."""
    parts = unicodedata.normalize("NFKD", text.casefold())
    kept = "".join(part for part in parts if not unicodedata.combining(part))
    return " ".join(re.findall(r"[a-z]+|[0-9]+", kept.replace("º", "o").replace("ª", "a")))


@cache
def _data() -> dict[str, dict[str, list[str]]]:
    text = files("estimator.intake").joinpath("storey_words.toml").read_text("utf-8")
    return tomllib.loads(text)


@cache
def _elsewhere() -> frozenset[str]:
    return frozenset(_plain(word) for words in _data()[_ELSEWHERE].values() for word in words)


@cache
def _words() -> tuple[_Word, ...]:
    """Return every word of the file: names of several words, those with a number, the others."""
    found = [
        _Word(shown=word, level=None if level == _NUMBERED else int(level))
        for level, languages in _data().items()
        if level != _ELSEWHERE
        for words in languages.values()
        for word in words
    ]

    def turn(word: _Word) -> tuple[int, int]:
        rank = 1 if word.level is None else 0 if " " in _plain(word.shown) else 2
        return rank, -len(word.letters)

    return tuple(sorted(found, key=turn))
