"""Strength zones by room use and surface: rows that change what uses and furniture say."""

from collections.abc import Sequence

from attrs import evolve, frozen

from estimator.surfaces.schedule import RoomSchedule, Schedule, Surface, SurfaceKind

EVERY = "*"
"""Stands for every use."""


@frozen(kw_only=True)
class ZoneRule:
    """Surfaces of some rooms that are treated in another zone than the rest of the room.

    Parameters
    ----------
    uses
        Slugs of room uses, or ``*`` for all.
    surfaces
        Kinds of surface; all where none is named.
    food_contact
        Whether it holds only for surfaces that food touches.
    zone
        Slug of the strength zone.
    """

    slug: str
    uses: tuple[str, ...]
    surfaces: tuple[SurfaceKind, ...] = ()
    food_contact: bool = False
    zone: str
    source: str
    as_of: str


def zoned(schedule: Schedule, rules: Sequence[ZoneRule]) -> Schedule:
    """Return the schedule with surfaces in the zones of the rules; of several the last holds."""
    if not rules:
        return schedule
    return Schedule(rooms=tuple(_zoned_room(room, rules) for room in schedule.rooms))


def _zoned_room(room: RoomSchedule, rules: Sequence[ZoneRule]) -> RoomSchedule:
    own = [rule for rule in rules if room.use in rule.uses or EVERY in rule.uses]
    if not own:
        return room
    return evolve(room, surfaces=tuple(_zoned(surface, own) for surface in room.surfaces))


def _zoned(surface: Surface, rules: Sequence[ZoneRule]) -> Surface:
    holding = [rule for rule in rules if _holds(rule, surface)]
    return evolve(surface, zone=holding[-1].zone) if holding else surface


def _holds(rule: ZoneRule, surface: Surface) -> bool:
    kind = not rule.surfaces or surface.kind in rule.surfaces
    return kind and (surface.food_contact or not rule.food_contact)
