"""The words that drawn plans bear, from ``words.toml``."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from attrs import frozen


@frozen(kw_only=True)
class Words:
    """Room names by use, one mapping a language, titles and lines of small print."""

    names: tuple[Mapping[str, tuple[str, ...]], ...]
    titles: tuple[str, ...]
    small_print: tuple[str, ...]


@cache
def words() -> Words:
    """Return all words."""
    text = files("estimator.synthesis").joinpath("words.toml").read_text(encoding="utf-8")
    data = tomllib.loads(text)
    return Words(
        names=tuple(
            {use: tuple(known) for use, known in language.items()} for language in data["names"]
        ),
        titles=tuple(data["titles"]),
        small_print=tuple(data["small_print"]),
    )
