"""Columns as wide as their words; those of longer words share what is left and wrap."""

from collections.abc import Collection, Sequence

from estimator.documents.lettering import width

_AROUND = 5.6
"""Points on both sides of a cell, and a little for figures of another width."""


_LEAST_LEFT = 0.2
"""Share of the width that columns which give way need; with less, all give way."""


def column_widths(
    head: Sequence[str],
    rows: Sequence[Sequence[str]],
    size: float,
    wide: float,
    *,
    wrapping: Collection[str],
) -> list[float]:
    """Return the widths of the columns of a table that is just so wide.

    Parameters
    ----------
    head
        Headings; they wrap between words.
    wrapping
        Headings of the columns that give way when there is too little space.
    """
    natural = [
        max(
            [
                *(width(word, 0.92 * size) for word in heading.split()),
                *(width(row[at], size) for row in rows),
            ],
            default=0.0,
        )
        + _AROUND
        for at, heading in enumerate(head)
    ]
    giving = sorted(
        (at for at, heading in enumerate(head) if heading in wrapping), key=natural.__getitem__
    )
    left = wide - sum(one for at, one in enumerate(natural) if at not in giving)
    if left < _LEAST_LEFT * wide:
        return [wide * one / sum(natural) for one in natural]
    widths = natural.copy()
    for count, at in zip(range(len(giving), 0, -1), giving, strict=True):
        widths[at] = min(natural[at], left / count)
        left -= widths[at]
    return [one + left / len(widths) for one in widths]
