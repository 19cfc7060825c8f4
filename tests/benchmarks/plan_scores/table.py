"""The figures asked for, the published ones, and ours, as one table."""

from collections.abc import Iterable, Sequence

import numpy as np
from attrs import frozen

SHORT = "✗"
MET = "✓"


@frozen(kw_only=True)
class Figure:
    """One line of the table.

    Parameters
    ----------
    ours, asked
        The figure and what it has to reach.
    others
        The same figure of other ways in the same run, by name.
    published
        What was published, and where.
    most
        Whether the figure asked for is a most and not a least.
    """

    measure: str
    ours: float
    asked: float | None = None
    others: tuple[float, ...] = ()
    published: str = ""
    most: bool = False

    @property
    def is_met(self) -> bool:
        """Whether the figure reaches what is asked."""
        return self.asked is None or (
            self.ours <= self.asked if self.most else self.ours >= self.asked
        )

    def line(self) -> str:
        """Return the line as text."""
        asked, mark = "", " "
        if self.asked is not None:
            asked = f"{'≤' if self.most else '≥'} {self.asked:g}"
            mark = MET if self.is_met else SHORT
        others = "".join(f"{other:11.3f}" for other in self.others) or " " * 22
        return f"{self.measure:52s}{self.ours:7.3f} {mark} {asked:8s}{others}  {self.published}"


HEAD = f"{'':52s}{'ours':>7s}   {'asked':8s}{'components':>11s}{'watershed':>11s}  published"


def table(title: str, figures: Iterable[Figure]) -> str:
    """Return figures as a table."""
    return "\n".join([f"\n{title}", HEAD, *(figure.line() for figure in figures)])


def reliability(of_what: str, said: Sequence[tuple[float, bool]]) -> str:
    """Return how many of those said to be so sure are right, in ten bins and in one sentence."""
    sure, right = (np.array(column) for column in zip(*said, strict=True))
    lines = [f"\nhow sure of {of_what}: said on average, right, of how many"]
    for low in np.arange(10) / 10:
        among = (sure >= low) & (sure < low + 0.1 + (low > 0.85))
        if among.any():
            part = f"{sure[among].mean():.2f}  {right[among].mean():.2f}  {among.sum():5d}"
            lines.append(f"  {low:.1f} to {low + 0.1:.1f}:  {part}")
    most = sure >= 0.9
    share = right[most].mean() if most.any() else float("nan")
    lines.append(f"of {most.sum()} {of_what} said to be at least 90 % sure, {share:.1%} are right")
    return "\n".join(lines)
