"""One command of the table, read part by part: whatever it lacks is refused in one sentence."""

from attrs import frozen

from estimator.errors import PlanError
from estimator.measures import Metres
from estimator.plan.opening import OpeningKind, Point
from estimator.quantities import Units, length
from estimator.quantities.sides import sides
from estimator.surfaces.book import SurfaceBook
from estimator.web.table.heard import Command

MOST_POINTS = 20_000
"""Corners of one outline that are looked at."""

_FARTHEST = 1e6


@frozen(kw_only=True)
class Said:
    """A command, with the units of bare numbers and the book it is read by.

    Parameters
    ----------
    command
        ``do`` names it; places are pairs of numbers on the ground, lengths are text as it was
        typed.
    """

    command: Command
    units: Units
    book: SurfaceBook

    @property
    def storey(self) -> int:
        """Number of the storey that was drawn on."""
        return self.count("storey")

    def text(self, key: str) -> str:
        """Return a piece of text."""
        value = self.command.get(key)
        if not isinstance(value, str):
            raise unreadable(f"its {key} is missing")
        return value

    def flag(self, key: str) -> bool:
        """Tell whether something was ticked."""
        return self.command.get(key) is True

    def number(self, key: str) -> float:
        """Return a number within reason."""
        value = self.command.get(key)
        if not isinstance(value, int | float) or not abs(value) < _FARTHEST:
            raise unreadable(f"its {key} is no number")
        return float(value)

    def count(self, key: str) -> int:
        """Return a whole number."""
        value = self.number(key)
        if not value.is_integer():
            raise unreadable(f"its {key} is no count")
        return int(value)

    def texts(self, key: str) -> list[str]:
        """Return a list of pieces of text."""
        found = self.command.get(key)
        if not isinstance(found, list):
            raise unreadable(f"its {key} are missing")
        return [str(one) for one in found]

    def place(self, key: str) -> Point:
        """Return a place of the ground."""
        return _point(self.command.get(key), key)

    def places(self, key: str) -> list[Point]:
        """Return places of the ground."""
        found = self.command.get(key)
        if not isinstance(found, list) or not found:
            raise unreadable(f"its {key} are missing")
        if len(found) > MOST_POINTS:
            raise unreadable(f"it has {len(found):,} corners")
        return [_point(place, key) for place in found]

    def wall(self, key: str) -> tuple[Point, Point]:
        """Return both ends of a wall."""
        first, *others = self.places(key)
        if len(others) != 1:
            raise unreadable(f"its {key} has no two ends")
        return first, others[0]

    def length(self, key: str) -> Metres:
        """Return a length that was typed."""
        return length(self.text(key), self._house_unit)

    def sides(self, key: str) -> tuple[Metres, Metres]:
        """Return two sides that were typed."""
        return sides(self.text(key), self._house_unit)

    def opening(self, key: str) -> OpeningKind:
        """Return a kind of opening."""
        try:
            return OpeningKind(self.text(key))
        except ValueError:
            raise unreadable("such an opening is not known") from None

    @property
    def _house_unit(self) -> str:
        return "m" if self.units is Units.METRIC else "ft"


def unreadable(problem: str) -> PlanError:
    """Return what is said about a command that makes no sense."""
    return PlanError("The drawing", problem, "draw it again")


def _point(value: object, key: str) -> Point:
    match value:
        case [int() | float() as x, int() | float() as y] if abs(x) < _FARTHEST > abs(y):
            return float(x), float(y)
    raise unreadable(f"its {key} lies nowhere on the plan")
