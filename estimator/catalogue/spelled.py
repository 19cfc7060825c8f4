"""The rows of the book as they are spelled in its files, for whoever edits them."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from estimator.catalogue.loader import SINGLE, WHOLE
from estimator.catalogue.overlaying import over

Spelled = dict[str, dict[str, Any]]
"""By section: its one row, or its rows by name."""


@cache
def _packaged() -> Spelled:
    rows: Spelled = {}
    for file in sorted(files("estimator.catalogue").joinpath("data").iterdir(), key=str):
        if file.name.endswith(".toml"):
            for section, content in tomllib.loads(file.read_text("utf-8")).items():
                rows.setdefault(section, {}).update(content)
    return rows


def spelled(own: Mapping[str, Mapping[str, Any]]) -> Spelled:
    """Return the packaged rows with a firm's own laid over them."""
    rows = {section: dict(content) for section, content in _packaged().items()}
    for section, content in own.items():
        if section in WHOLE:
            rows[section] = dict(content)
        elif section in SINGLE:
            rows[section] = over(section, rows[section], dict(content))
        else:
            there = rows.setdefault(section, {})
            for name, row in content.items():
                there[name] = over(section, there[name], row) if name in there else row
    return rows
