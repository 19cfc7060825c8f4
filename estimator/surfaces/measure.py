"""Measuring: from a plan and the book to the schedule of surfaces."""

import math
from functools import lru_cache

from estimator.errors import ScaleUnknown
from estimator.measures import Metres, Share, SquareMetres
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.surfaces.book import SurfaceBook
from estimator.surfaces.contents import Contents, assumed_contents, contents
from estimator.surfaces.gaps import Gaps, gaps
from estimator.surfaces.headroom import Headroom, headroom
from estimator.surfaces.schedule import Lie, RoomSchedule, Schedule, Surface, SurfaceKind
from estimator.surfaces.scope import NOTHING, Scope
from estimator.surfaces.touch import touch_points
from estimator.surfaces.uses import RoomUse

HEIGHT_ERROR: Share = 0.08
"""Usual heights of a use differ by about this: 2.44 and 2.74 m in homes, 2.7 to 3.05 in offices."""

CONTENTS_ERROR: Share = 0.45
"""Surface of contents as a share of the bare room: 0.7, and nine rooms in ten below 1.1 [1]_.

(1.1 - 0.7) ÷ 1.28 standard deviations ÷ 0.7 = 0.45; the nine in ten are our reading of the study's
range.

.. [1] Manuja, Total Surface Area in Indoor Environments, Virginia Tech M.S. thesis: surface with
   contents is 1.7 ± 0.2 times that without.
"""

OPENINGS_ERROR: Share = 0.15
"""Usual heights of doors and windows differ by about this."""

MOST_REMEMBERED = 50_000
"""Rooms remembered for one book and scope, so that one changed room means one measured room."""


def measure(plan: Plan, book: SurfaceBook, scope: Scope) -> Schedule:
    """Return every surface of every room.

    A room is measured once for the same book and scope, however many plans it occurs in.

    Raises
    ------
    ScaleUnknown
        When a room has no outline in metres.
    NoSuchEntry
        When the book lacks a room's use or a kind of furniture.
    """
    known = _known(book, scope)
    if len(known) > MOST_REMEMBERED:
        known.clear()
    remembered = known.get
    return Schedule(
        rooms=tuple(
            [
                remembered(room) or known.setdefault(room, measure_room(room, book, scope))
                for room in plan.rooms
            ]
        )
    )


@lru_cache(maxsize=16)
def _known(_book: SurfaceBook, _scope: Scope) -> dict[Room, RoomSchedule]:
    return {}


def measure_room(room: Room, book: SurfaceBook, scope: Scope) -> RoomSchedule:
    """Return every surface of one room.

    Raises
    ------
    ScaleUnknown
        When the room or an opening has no place in metres.
    NoSuchEntry
        When the book lacks its use or a kind of furniture.
    """
    if room.outline is None:
        raise ScaleUnknown(
            room.name or room.id, "it has no size yet", "set the scale of the plan first"
        )
    use = book.use(room.use)
    scope = NOTHING if use.outdoors else scope
    height = _least_height(room, use)
    over = headroom(room.outline, height, room.ceiling)
    reach = math.inf if scope.walls_to is None else scope.walls_to
    inside = contents(room, room.outline, use, book, scope)
    through = gaps(room, over, book, reach)
    floor_area = room.outline.area
    return RoomSchedule(
        room=room.id,
        name=room.name,
        use=use.slug,
        use_label=use.label,
        storey=room.storey,
        floor_area=floor_area,
        perimeter=room.outline.length,
        height=over.volume / floor_area,
        volume=over.volume,
        openings_area=through.area,
        surfaces=(
            _floor(room, floor_area, inside, use, scope),
            _walls(room, over, through, inside, use, scope, reach),
            _ceiling(room, over, use, scope),
            *through.surfaces(use.zone, scope),
            *inside.surfaces,
            *touch_points(use, floor_area, through.doors, treated=scope.touch_points),
        ),
        assumed=_assumed(room, use, height, through, inside, book),
    )


def _least_height(room: Room, use: RoomUse) -> Metres:
    """Return the least height of the ceiling: as stated, or usual for the use."""
    if room.ceiling_height is not None:
        return room.ceiling_height
    return min(use.ceiling_height, room.ceiling.top) if room.ceiling else use.ceiling_height


def _floor(room: Room, area: SquareMetres, inside: Contents, use: RoomUse, scope: Scope) -> Surface:
    hidden = min(area, inside.stands_on)
    return Surface(
        kind=SurfaceKind.FLOOR,
        item="floor",
        label="Floor",
        lie=Lie.LEVEL,
        zone=use.zone,
        gross=area,
        deducted=hidden,
        treated=area - hidden if scope.floors else 0.0,
        basis=room.basis,
    )


def _walls(
    room: Room,
    over: Headroom,
    through: Gaps,
    inside: Contents,
    use: RoomUse,
    scope: Scope,
    reach: Metres,
) -> Surface:
    """Return the walls; a wall between two rooms has a face in each, so none is counted twice."""
    gross = over.walls(math.inf)
    taken = through.area + inside.hides_wall_below(math.inf)
    reached = over.walls(reach) - through.reached - inside.hides_wall_below(reach)
    return Surface(
        kind=SurfaceKind.WALL,
        item="walls",
        label="Walls",
        lie=Lie.UPRIGHT,
        zone=use.zone,
        gross=gross,
        deducted=min(gross, taken),
        treated=max(0.0, reached) if scope.walls else 0.0,
        basis=Basis.ASSUMED if room.ceiling_height is None else room.basis,
    )


def _ceiling(room: Room, over: Headroom, use: RoomUse, scope: Scope) -> Surface:
    return Surface(
        kind=SurfaceKind.CEILING,
        item="ceiling",
        label="Ceiling",
        lie=Lie.OVERHEAD,
        zone=use.zone,
        gross=over.ceiling_area,
        treated=over.ceiling_area if scope.ceilings else 0.0,
        basis=room.basis,
    )


def _assumed(
    room: Room, use: RoomUse, height: Metres, through: Gaps, inside: Contents, book: SurfaceBook
) -> tuple[Doubt, ...]:
    """Return a doubt for each thing the book had to say because nobody else did."""
    name = room.name or use.label
    if use.outdoors:
        says = f"{name} lies outdoors, where nothing is treated."
        return (Doubt(aspect=Aspect.OTHER, room=room.id, says=says, confidence=0.9),)
    doubts = []
    if room.ceiling_height is None:
        doubts.append(
            Doubt(
                aspect=Aspect.HEIGHT,
                room=room.id,
                says=f"The ceiling of {name} was assumed to be {height:.2f} m high.",
                confidence=0.5,
                relative_error=HEIGHT_ERROR,
            )
        )
    if assumed_contents(room, use, book):
        holds = "hold, beside what is built in," if room.furnishings else "hold"
        doubts.append(
            Doubt(
                aspect=Aspect.CONTENTS,
                room=room.id,
                says=f"{name} was assumed to {holds} what usually stands in a room of its use.",
                confidence=0.5,
                relative_error=CONTENTS_ERROR * inside.assumed,
            )
        )
    if through.assumed:
        kinds = " and ".join(f"{kind}s" for kind in through.assumed)
        doubts.append(
            Doubt(
                aspect=Aspect.OPENINGS,
                room=room.id,
                says=f"The {kinds} of {name} were assumed to be of usual height.",
                confidence=0.5,
                relative_error=OPENINGS_ERROR,
            )
        )
    return tuple(doubts)
