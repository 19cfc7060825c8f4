"""What the table sends, turned into corrections of the plan."""

import math
from collections.abc import Callable

from estimator.errors import PlanError, QuantityError
from estimator.intake.room_names import use_of
from estimator.plan.drawing import drawn, room_at, room_moved, split
from estimator.plan.edits import merged, removed, renamed, with_use
from estimator.plan.ground import ground_of
from estimator.plan.placing import (
    opening_moved,
    opening_placed,
    opening_removed,
    opening_resized,
)
from estimator.plan.plan import Plan
from estimator.plan.pulling import (
    corner_added,
    corner_moved,
    corner_pulled,
    corner_removed,
    wall_moved,
)
from estimator.plan.standing import (
    piece_moved,
    piece_placed,
    piece_removed,
    piece_resized,
    piece_turned,
)
from estimator.web.table.said import Said, unreadable
from estimator.workflow.scaling import KnownLength, scaled_by

LONGEST_NAME = 80

_ROOM_SIDES = (0.3, 500.0)
_UNNAMED_USE = "room"


def corrected(plan: Plan, said: Said) -> Plan:
    """Return the plan corrected as a command says.

    Raises
    ------
    EstimatorError
        One sentence on why it is refused.
    """
    correction = _CORRECTIONS.get(said.text("do"))
    if correction is None:
        raise unreadable("it asks for something unknown")
    if said.storey not in {level.number for level in plan.storeys}:
        raise unreadable("its storey is no longer there")
    return correction(plan, said)


def _add_room(plan: Plan, said: Said) -> Plan:
    return drawn(plan, said.storey, said.places("corners"))


def _add_sides(plan: Plan, said: Said) -> Plan:
    """Add a rectangle of typed sides, from a corner towards a place or else right and down."""
    found = said.sides("sides")
    least, most = _ROOM_SIDES
    if not all(least <= side <= most for side in found):
        raise QuantityError(
            f"“{said.text('sides').strip()}”", "no room has such sides", "give 0.3 m to 500 m"
        )
    ground = ground_of(plan, said.storey)
    if ground.metres_per_unit is None:
        raise PlanError("The sides", "this picture has no scale yet", "set its scale first")
    x, y = said.place("at")
    towards = said.place("towards") if said.command.get("towards") else (math.inf, math.inf)
    u = x + math.copysign(ground.units(found[0]), towards[0] - x)
    v = y + math.copysign(ground.units(found[1]), towards[1] - y)
    return drawn(plan, said.storey, [(x, y), (u, y), (u, v), (x, v)])


def _move_wall(plan: Plan, said: Said) -> Plan:
    start, end = said.wall("wall")
    alone = said.flag("alone")
    return wall_moved(plan, said.text("room"), start, end, said.place("by"), alone=alone)


def _move_corner(plan: Plan, said: Said) -> Plan:
    move = corner_moved if said.flag("free") else corner_pulled
    return move(plan, said.text("room"), said.place("corner"), said.place("to"))


def _rename(plan: Plan, said: Said) -> Plan:
    """Name a room; one that nobody said the use of is put to the one its name says."""
    name = " ".join(said.text("name").split())
    if len(name) > LONGEST_NAME:
        raise PlanError(
            "The name", f"it has {len(name):,} letters", f"give one of at most {LONGEST_NAME}"
        )
    room = plan.room(said.text("room"))
    use = use_of(name, {word: use.slug for use in said.book.uses for word in use.words})
    if use and room.use == _UNNAMED_USE:
        plan = with_use(plan, room.id, use)
    return renamed(plan, room.id, name)


def _cut(plan: Plan, said: Said) -> Plan:
    start, end = said.place("from"), said.place("to")
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    room = room_at(plan, said.storey, middle)
    if room is None:
        raise PlanError("The cut", "it crosses no room", "draw it across one, from wall to wall")
    return split(plan, room.id, start, end)


def _add_piece(plan: Plan, said: Said) -> Plan:
    kind = said.book.kind(said.text("kind"))
    return piece_placed(
        plan,
        said.storey,
        kind.slug,
        said.place("at"),
        length=kind.length,
        depth=kind.depth,
        degrees=said.number("degrees"),
    )


def _resize_piece(plan: Plan, said: Said) -> Plan:
    longer, shorter = said.sides("sides")
    return piece_resized(plan, said.text("room"), said.count("piece"), length=longer, depth=shorter)


def _scale(plan: Plan, said: Said) -> Plan:
    ground = ground_of(plan, said.storey)
    if not ground.on_picture:
        raise PlanError("The scale", "this plan was drawn in metres", "move a wall instead")
    known = KnownLength(
        start_px=ground.given(said.place("from")),
        end_px=ground.given(said.place("to")),
        length=said.length("length"),
    )
    return scaled_by(plan, known, said.storey)


_CORRECTIONS: dict[str, Callable[[Plan, Said], Plan]] = {
    "add-room": _add_room,
    "add-sides": _add_sides,
    "move-wall": _move_wall,
    "move-corner": _move_corner,
    "add-corner": lambda plan, said: corner_added(plan, said.text("room"), said.place("at")),
    "remove-corner": lambda plan, said: corner_removed(
        plan, said.text("room"), said.place("corner")
    ),
    "move-room": lambda plan, said: room_moved(plan, said.text("room"), said.place("by")),
    "remove-room": lambda plan, said: removed(plan, said.text("room")),
    "rename": _rename,
    "use": lambda plan, said: with_use(
        plan, said.text("room"), said.book.use(said.text("use")).slug
    ),
    "cut": _cut,
    "join": lambda plan, said: merged(plan, said.texts("rooms")),
    "add-opening": lambda plan, said: opening_placed(
        plan, said.storey, said.opening("kind"), said.place("at")
    ),
    "move-opening": lambda plan, said: opening_moved(
        plan, said.text("room"), said.text("opening"), said.place("to")
    ),
    "resize-opening": lambda plan, said: opening_resized(
        plan, said.text("room"), said.text("opening"), said.length("width")
    ),
    "remove-opening": lambda plan, said: opening_removed(
        plan, said.text("room"), said.text("opening")
    ),
    "add-piece": _add_piece,
    "move-piece": lambda plan, said: piece_moved(
        plan, said.text("room"), said.count("piece"), said.place("by")
    ),
    "turn-piece": lambda plan, said: piece_turned(
        plan, said.text("room"), said.count("piece"), said.number("degrees")
    ),
    "resize-piece": _resize_piece,
    "remove-piece": lambda plan, said: piece_removed(plan, said.text("room"), said.count("piece")),
    "scale": _scale,
}
