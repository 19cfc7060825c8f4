"""Rows of the book as the text of a data file."""

import datetime
import json
import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

_BARE = re.compile(r"[A-Za-z0-9_-]+")


def toml_text(rows: Mapping[str, Mapping[str, Any]]) -> str:
    """Return sections, of one row or of many named ones, as TOML.

    >>> print(toml_text({"rates": {"burden": 0.3}, "paces": {"*": {"spray": "10 m^2/min"}}}))
    [rates]
    burden = 0.3
    <BLANKLINE>
    [paces."*"]
    spray = "10 m^2/min"
    <BLANKLINE>
    """
    blocks = []
    for section, content in rows.items():
        if content and all(isinstance(row, Mapping) for row in content.values()):
            blocks += [_table(f"{section}.{_key(name)}", row) for name, row in content.items()]
        else:
            blocks.append(_table(section, content))
    return "\n".join(blocks)


def _table(heading: str, row: Mapping[str, Any]) -> str:
    lines = [f"{_key(key)} = {_value(given)}\n" for key, given in row.items()]
    return f"[{heading}]\n{''.join(lines)}"


def _key(name: str) -> str:
    return name if _BARE.fullmatch(name) else _string(name)


def _value(given: Any) -> str:
    match given:
        case bool():
            return "true" if given else "false"
        case str():
            return _string(given)
        case Decimal():
            return f"{given:f}"
        case int() | float() | datetime.date():
            return str(given)
        case Mapping():
            pairs = (f"{_key(key)} = {_value(each)}" for key, each in given.items())
            return f"{{{', '.join(pairs)}}}"
        case _:
            return f"[{', '.join(map(_value, given))}]"


def _string(words: str) -> str:
    # TOML's basic strings are JSON's, but for DEL, which TOML wants escaped.
    return json.dumps(words, ensure_ascii=False).replace("\x7f", "\\u007f")
