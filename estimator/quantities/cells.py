"""Text in the cells of a CSV, so that no spreadsheet program takes it for a formula."""

_FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_GUARD = "'"


def guarded(text: str) -> str:
    """Return text that begins with no sign of a formula, an apostrophe put before one.

    The signs are those of OWASP, *CSV Injection*, from memory.

    >>> guarded("=1+1"), guarded("Hall")
    ("'=1+1", 'Hall')
    """
    return f"{_GUARD}{text}" if text.startswith((*_FORMULA_SIGNS, _GUARD)) else text


def unguarded(text: str) -> str:
    """Return guarded text as it was.

    >>> unguarded("'=1+1"), unguarded("Hall")
    ('=1+1', 'Hall')
    """
    return text.removeprefix(_GUARD)
