"""The schedule: a row for every kind of surface in every room."""

from enum import StrEnum

from attrs import frozen

from estimator.measures import CubicMetres, Metres, SquareMetres, checked
from estimator.plan.doubt import Doubt
from estimator.plan.room import Basis


class SurfaceKind(StrEnum):
    """What part of the room a surface belongs to."""

    FLOOR = "floor"
    WALL = "wall"
    CEILING = "ceiling"
    DOOR = "door"
    GLASS = "glass"
    REVEAL = "reveal"
    FURNITURE = "furniture"
    TOUCH_POINT = "touch point"


class Lie(StrEnum):
    """How a surface lies, which decides how much liquid stays on it."""

    LEVEL = "level"
    UPRIGHT = "upright"
    OVERHEAD = "overhead"
    FABRIC = "fabric"
    INTRICATE = "intricate"


@frozen(kw_only=True, field_transformer=checked)
class Surface:
    """One row of the schedule.

    Parameters
    ----------
    item
        Slug of what carries it: ``walls``, ``floor``, ``door`` or a kind of furniture.
    label
        The same in words for people.
    count
        How many pieces the row stands for.
    zone
        Slug of the strength zone it is treated in.
    gross, deducted
        Area before and what openings or furniture take from it.
    treated
        What of the net area is sprayed under the scope agreed.
    food_contact
        Whether it is wiped and rinsed after treatment because food touches it.
    """

    kind: SurfaceKind
    item: str
    label: str
    count: int = 1
    lie: Lie
    zone: str
    gross: SquareMetres
    deducted: SquareMetres = 0.0
    treated: SquareMetres
    food_contact: bool = False
    basis: Basis

    @property
    def net(self) -> SquareMetres:
        """Gross area less what was deducted."""
        return self.gross - self.deducted


@frozen(kw_only=True, field_transformer=checked)
class RoomSchedule:
    """All surfaces of one room.

    Parameters
    ----------
    height
        Mean height of the ceiling over the floor.
    volume
        Air in the empty room.
    openings_area
        What doors, windows and passages take from the walls.
    assumed
        What the measuring had to assume about this room.
    """

    room: str
    name: str
    use: str
    use_label: str
    storey: int
    floor_area: SquareMetres
    perimeter: Metres
    height: Metres
    volume: CubicMetres
    surfaces: tuple[Surface, ...]
    openings_area: SquareMetres = 0.0
    assumed: tuple[Doubt, ...] = ()

    @property
    def treated(self) -> SquareMetres:
        """Area sprayed in the room."""
        return sum(surface.treated for surface in self.surfaces)


@frozen(kw_only=True)
class Schedule:
    """All surfaces of the site, room by room."""

    rooms: tuple[RoomSchedule, ...]

    @property
    def floor_area(self) -> SquareMetres:
        """Floor area of all rooms."""
        return sum(room.floor_area for room in self.rooms)

    @property
    def treated(self) -> SquareMetres:
        """Area sprayed on the whole site."""
        return sum(room.treated for room in self.rooms)

    @property
    def assumed(self) -> tuple[Doubt, ...]:
        """What the measuring had to assume, room by room."""
        return tuple(doubt for room in self.rooms for doubt in room.assumed)
