"""Sums over a schedule, as papers and later steps need them."""

from collections import defaultdict
from collections.abc import Iterable

from attrs import frozen

from estimator.measures import Ratio, SquareMetres, checked
from estimator.surfaces.schedule import RoomSchedule, Schedule, Surface, SurfaceKind


@frozen(kw_only=True, field_transformer=checked)
class Total:
    """Areas of several surfaces together."""

    gross: SquareMetres
    deducted: SquareMetres
    treated: SquareMetres

    @property
    def net(self) -> SquareMetres:
        """Gross area less what was deducted."""
        return self.gross - self.deducted


def total(surfaces: Iterable[Surface]) -> Total:
    """Return the areas of the surfaces together."""
    gross = deducted = treated = 0.0
    for surface in surfaces:
        gross += surface.gross
        deducted += surface.deducted
        treated += surface.treated
    return Total(gross=gross, deducted=deducted, treated=treated)


def by_kind(schedule: Schedule) -> dict[SurfaceKind, Total]:
    """Return the total of each kind of surface on the site."""
    kinds: defaultdict[SurfaceKind, list[Surface]] = defaultdict(list)
    for room in schedule.rooms:
        for surface in room.surfaces:
            kinds[surface.kind].append(surface)
    return {kind: total(surfaces) for kind, surfaces in kinds.items()}


def by_room(schedule: Schedule) -> dict[str, Total]:
    """Return the total of each room, by its id."""
    return {room.room: total(room.surfaces) for room in schedule.rooms}


def bare_area(room: RoomSchedule) -> SquareMetres:
    """Return floor, ceiling and walls less openings, as if the room were empty."""
    shell = (SurfaceKind.FLOOR, SurfaceKind.CEILING, SurfaceKind.WALL)
    gross = total(surface for surface in room.surfaces if surface.kind in shell).gross
    return gross - room.openings_area


def furnished_ratio(room: RoomSchedule) -> Ratio:
    """Return the surface with contents as a multiple of the surface without."""
    contents = (SurfaceKind.FURNITURE, SurfaceKind.TOUCH_POINT)
    added = total(surface for surface in room.surfaces if surface.kind in contents).gross
    return 1.0 + added / bare_area(room)
