"""A bar that says how far a long command is."""

import shutil
import time
from typing import Self, TextIO

_WIDEST = 30


class Progress:
    """A bar on the last line of a terminal; elsewhere only what is said is written.

    Parameters
    ----------
    done
        How many of the total are done before it begins.
    """

    def __init__(self, *, total: int, done: int, shown_on: TextIO) -> None:
        self._total = total
        self._done = self._before = done
        self._out = shown_on
        self._is_terminal = shown_on.isatty()
        self._began = time.monotonic()

    def step(self, says: str = "") -> None:
        """Say that one more is done, and whatever is to be said of it on a line of its own."""
        self._done += 1
        if says:
            self._clear()
            print(says, file=self._out)
        self._show()

    def __enter__(self) -> Self:
        self._show()
        return self

    def __exit__(self, *_: object) -> None:
        self._clear()
        self._out.flush()

    def _show(self) -> None:
        if self._is_terminal:
            width = shutil.get_terminal_size().columns
            line = bar(self._done, self._total, self._time_left(), width=width)
            self._out.write(f"\r\x1b[K{line}")
            self._out.flush()

    def _clear(self) -> None:
        if self._is_terminal:
            self._out.write("\r\x1b[K")

    def _time_left(self) -> float | None:
        """Return seconds, by the pace so far."""
        new = self._done - self._before
        if not new:
            return None
        return (time.monotonic() - self._began) / new * (self._total - self._done)


def bar(done: int, total: int, seconds_left: float | None, *, width: int = 80) -> str:
    """Return a bar with its words, no wider than the terminal.

    >>> bar(3, 12, 95.0, width=50)
    '███········ 3 of 12, about 2 min left'
    >>> bar(0, 12, None, width=30)
    '·········· 0 of 12'
    """
    words = f" {done} of {total}"
    if seconds_left is not None and done < total:
        words += f", about {shown_time(seconds_left)} left"
    cells = max(0, min(_WIDEST, (width - len(words) - 1) // 2))
    halves = round(2 * cells * done / total) if total else 2 * cells
    return ("█" * (halves // 2) + "▌" * (halves % 2)).ljust(cells, "·") + words


def shown_time(seconds: float) -> str:
    """Return how long something takes, roughly.

    >>> shown_time(4.2), shown_time(95), shown_time(5000)
    ('5 s', '2 min', '1.4 h')
    """
    if seconds < 55:
        return f"{5 * max(1, round(seconds / 5))} s"
    if seconds < 3600:
        return f"{max(1, round(seconds / 60))} min"
    return f"{seconds / 3600:.1f} h"
