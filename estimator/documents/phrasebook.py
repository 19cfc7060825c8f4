"""What papers say in each language, and how what the reckoning says in English is recognised.

What papers say themselves is looked up by its key. What the reckoning says (labels of the packaged
book, doubts, cautions) is recognised: by its words, or by a pattern whose braces hold what changes.
A sentence that is not recognised whole is never said in parts.
"""

import re
import tomllib
from collections.abc import Collection, Sequence
from functools import cache
from importlib.resources import files
from string import Formatter
from typing import Any

from estimator.quantities.language import Language, respelled

Section = dict[str, str]

NAMES = frozenset({"room", "rooms", "other", "file", "page", "text", "name"})
"""Braces that hold a name, which no language changes."""

WORDS = frozenset(
    {
        "kind",
        "kinds",
        "unit",
        "basis",
        "counted",
        "listed",
        "uses",
        "size",
        "printed",
        "drawn",
        "_why",
    }
)
"""Braces that hold words of the reckoning; all others hold a measure or a count."""

_LISTED = re.compile(r", | and ")
_UNIT = r"(?:%|m²|m|cm|mm|µm|ft²|ft|in|L|mL|US gal|US fl oz|g|kg|oz|lb|ppm|min|h|s)"
_ONE = rf"\d[\d.,/:½]*(?:['\"]| ?{_UNIT}(?!\w))?"
_MEASURE = rf"{_ONE}(?: {_ONE})*"
_BEFORE_SIGNS = re.compile(r" (?=[:;?!»])")


def phrase(language: Language, section: str, key: str) -> str:
    """Return words of the papers' own."""
    found: str = phrases(language)[section][key]
    return found


def listed(words: Sequence[str], language: Language) -> str:
    """Return words as a list in a sentence.

    >>> listed(["a", "b", "c"], Language.FR)
    'a, b et c'
    """
    if len(words) < 2:
        return "".join(words)
    joined = phrase(language, "quote", "and")
    return joined.format(first=", ".join(words[:-1]), last=words[-1])


def told(english: str, language: Language, names: Collection[str]) -> str | None:
    """Return a sentence of the reckoning in a language; None when it is not recognised whole.

    Parameters
    ----------
    names
        Names that rooms were given, to be kept even where the packaged book knows the word.
    """
    return _sentence(english, language, names) or _list(english, language, names)


def _sentence(english: str, language: Language, names: Collection[str]) -> str | None:
    if known := labels(language).get(english):
        return known
    for pattern, foreign in _sentences(language):
        if found := pattern.fullmatch(english):
            values = {
                brace: _named(said, language, names)
                if brace in NAMES
                else _value(said, language, names)
                for brace, said in found.groupdict().items()
                if not brace.startswith("_")
            }
            if None not in values.values():
                return foreign.format(**values)
    return None


def _value(said: str, language: Language, names: Collection[str]) -> str | None:
    """Return what a brace holds: a measure, or words that are known."""
    if re.fullmatch(_MEASURE, said):
        return respelled(said, language)
    return told(said, language, names)


def _list(said: str, language: Language, names: Collection[str]) -> str | None:
    """Return a list of measures and words that are known."""
    parts = _LISTED.split(said)
    if len(parts) < 2:
        return None
    each = [_value(part, language, names) for part in parts]
    return None if None in each else listed([part for part in each if part], language)


def _named(said: str, language: Language, names: Collection[str]) -> str:
    """Return a name as it is; where a use stands for a room without one, told."""
    if said in names:
        return said
    parts = _LISTED.split(said)
    if len(parts) > 1 and all(part in names or part.isdecimal() for part in parts):
        return listed(parts, language)
    return labels(language).get(said, said)


@cache
def phrases(language: Language) -> dict[str, Any]:
    """Return all that papers say in a language, by section and key."""
    path = files("estimator.documents") / "phrases" / f"{language}.toml"
    found: dict[str, Any] = tomllib.loads(path.read_text("utf-8"))
    if language is Language.FR:
        found = _spaced(found)
    return found


def french(text: str) -> str:
    r"""Return French text with the spaces before its high signs that never break a line.

    >>> french("Signé : oui")
    'Signé\xa0: oui'
    """
    return _BEFORE_SIGNS.sub("\u00a0", text)


def _spaced(section: dict[str, Any]) -> dict[str, Any]:
    return {
        key: french(value) if isinstance(value, str) else _spaced(value)
        for key, value in section.items()
    }


@cache
def labels(language: Language) -> Section:
    """Return the names of the packaged book by their English words."""
    ours, theirs = phrases(Language.EN)["labels"], phrases(language)["labels"]
    return {
        words: theirs[section][key] for section, rows in ours.items() for key, words in rows.items()
    }


@cache
def cautions(language: Language) -> Section:
    """Return the cautions by their English words."""
    theirs = phrases(language)["cautions"]
    return {words: theirs[key] for key, words in phrases(Language.EN)["cautions"].items()}


@cache
def _sentences(language: Language) -> list[tuple[re.Pattern[str], str]]:
    """Return the patterns of the reckoning's sentences, each with its words in a language."""
    theirs = phrases(language)["sentences"]
    return [
        (_pattern(words), theirs[key]) for key, words in phrases(Language.EN)["sentences"].items()
    ]


def _pattern(words: str) -> re.Pattern[str]:
    seen: set[str] = set()
    parts = []
    for text, name, _, _ in Formatter().parse(words):
        parts.append(re.escape(text))
        if name:
            held = ".+?" if name in NAMES | WORDS else _MEASURE
            parts.append(f"(?P={name})" if name in seen else f"(?P<{name}>{held})")
            seen.add(name)
    return re.compile("".join(parts), re.DOTALL)
