"""Counts with their nouns."""


def counted(count: int, one: str, many: str = "") -> str:
    """Return a count with its noun.

    >>> counted(1, "room"), counted(1200, "room"), counted(2, "tank fill")
    ('1 room', '1,200 rooms', '2 tank fills')
    """
    return f"{count:,} {one if count == 1 else many or one + 's'}"
