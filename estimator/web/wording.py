"""User text made safe to show, and words for figures."""

import re
from collections import Counter
from collections.abc import Mapping
from decimal import Decimal

_MARKS = re.compile(r"([\\`*_{}\[\]()#+\-.!|~<>$:^=&\"'/])")


def plain(text: str) -> str:
    r"""Return text of the user's so that it is shown as typed, whatever marks it holds.

    >>> plain("Hall <b> $x$")
    'Hall \\<b\\> \\$x\\$'
    """
    return _MARKS.sub(r"\\\1", " ".join(text.split()))


def told_apart(names: Mapping[str, str]) -> dict[str, str]:
    """Return the names of rooms by id, numbered where several are the same.

    >>> told_apart({"a": "Office", "b": "Hall", "c": "Office"})
    {'a': 'Office 1', 'b': 'Hall', 'c': 'Office 2'}
    """
    alike = Counter(names.values())
    seen: Counter[str] = Counter()
    apart = {}
    for room, name in names.items():
        seen[name] += 1
        apart[room] = f"{name} {seen[name]}" if alike[name] > 1 else name
    return apart


def figure(value: Decimal) -> str:
    """Return a quantity without needless decimals.

    >>> figure(Decimal("4.1666")), figure(Decimal("12"))
    ('4.17', '12')
    """
    text = f"{value:,.2f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
