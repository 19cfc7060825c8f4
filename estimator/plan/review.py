"""The review list: what of a plan to look at first, by how much floor hangs on it."""

from collections.abc import Iterator, Mapping, Set
from statistics import median

from attrs import frozen

from estimator.measures import Share, SquareMetres, checked
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.reshaping import named
from estimator.plan.room import Room

# A scale less sure than this is worth a look.
WEAK_SCALE: Share = 0.02
# A room less sure than this is worth a look even where nothing more is said of it.
SURE_ROOM: Share = 0.85
# Of doors and windows less sure than this hardly half are right.
SURE_OPENING: Share = 0.6
USUAL_ROOM: SquareMetres = 10.0
"""Floor of a middling room, taken where nothing has a size."""
# What hangs on a doubt that says no error: the whole room when it is about its shape; little where
# only the use, the openings or the contents are in doubt.
_AT_STAKE: dict[Aspect, Share] = {Aspect.OUTLINE: 1.0, Aspect.OTHER: 0.5}
_LITTLE: Share = 0.2


@frozen(kw_only=True, field_transformer=checked)
class Check:
    """One thing to look at.

    Parameters
    ----------
    aspect
        What is in doubt.
    storey
        Number of the storey it lies on.
    room
        Id of the room; None when it concerns a whole storey.
    says
        The same in one sentence.
    at_stake
        The floor expected to be wrong by it, as a share of all floor.
    """

    aspect: Aspect
    storey: int
    room: str | None = None
    says: str
    at_stake: Share


def review(plan: Plan) -> tuple[Check, ...]:
    """Return what to check in a plan, that first on which most floor hangs; each room once.

    On a scale hangs twice its error of all floor of its storey, as areas err by twice as much as
    lengths. On a room hangs its floor times the error of its area where a doubt says one, or else
    times the chance that it was misread.

    Examples
    --------
    >>> from estimator.plan.geometry import rectangle
    >>> from estimator.plan.room import Room
    >>> rooms = [
    ...     Room(id="a", name="Hall", outline=rectangle(4, 5), confidence=0.95),
    ...     Room(id="b", name="Kitchen", outline=rectangle(3, 4), confidence=0.7),
    ... ]
    >>> [(check.room, check.says) for check in review(Plan(rooms=rooms))]
    [('b', 'Kitchen was read with a confidence of 70%.')]
    """
    floors = dict(_floors(plan))
    whole = sum(floors.values()) or 1.0
    shares = {room_id: floor / whole for room_id, floor in floors.items()}
    checks = [*_of_storeys(plan, shares), *_of_rooms(plan, shares), *_of_no_room(plan, shares)]
    return tuple(sorted(checks, key=lambda check: -check.at_stake))


def _floors(plan: Plan) -> Iterator[tuple[str, SquareMetres]]:
    """Yield the floor of each room, its usual size assumed where a storey has no scale."""
    for storey in plan.storeys:
        rooms = [room for room in plan.rooms if room.storey == storey.number]
        unsized = [room.outline_px.area for room in rooms if not room.outline and room.outline_px]
        square = USUAL_ROOM / median(unsized) if unsized else 0.0
        for room in rooms:
            if room.outline is not None:
                yield room.id, room.outline.area
            elif room.outline_px is not None:
                yield room.id, square * room.outline_px.area


def _of_storeys(plan: Plan, shares: Mapping[str, Share]) -> Iterator[Check]:
    """Yield the scales that are weak or not known."""
    for storey in plan.storeys:
        if storey.source is None:
            continue
        floor = sum(shares[room.id] for room in plan.rooms if room.storey == storey.number)
        named = f" of {storey.name}" if storey.name and len(plan.storeys) > 1 else ""
        if storey.scale is None:
            says, error = f"The scale{named} is not known; nothing has a size.", 1.0
        elif storey.scale.relative_error > WEAK_SCALE:
            error = 2 * storey.scale.relative_error
            says = f"The scale{named} is weak; every area may be off by {error:.0%}."
        else:
            continue
        yield Check(
            aspect=Aspect.SCALE,
            storey=storey.number,
            says=says,
            at_stake=min(1.0, error * floor),
        )


def _of_rooms(plan: Plan, shares: Mapping[str, Share]) -> Iterator[Check]:
    """Yield each room that is unsure or doubted, with the weightiest that is said of it."""
    doubts: dict[str, list[Doubt]] = {}
    for doubt in plan.doubts:
        if doubt.room is not None:
            doubts.setdefault(doubt.room, []).append(doubt)
    earlier: set[str] = set()
    for room in plan.rooms:
        stakes = [(_at_stake(doubt), doubt.aspect, doubt.says) for doubt in doubts.get(room.id, ())]
        if room.confidence < SURE_ROOM:
            says = f"{named(room)} was read with a confidence of {room.confidence:.0%}."
            stakes.append((1 - room.confidence, Aspect.OUTLINE, says))
        stakes += _of_openings(room, earlier)
        earlier.add(room.id)
        if stakes:
            stake, aspect, says = max(stakes, key=lambda each: each[0])
            yield Check(
                aspect=aspect,
                storey=room.storey,
                room=room.id,
                says=says,
                at_stake=stake * shares[room.id],
            )


def _of_openings(room: Room, earlier: Set[str]) -> Iterator[tuple[Share, Aspect, str]]:
    """Yield what hangs on each unsure opening that does not lead to a room told of before."""
    for opening in room.openings:
        if opening.confidence < SURE_OPENING and opening.leads_to not in earlier:
            perhaps = "; it may be a door" if opening.kind is OpeningKind.PASSAGE else ""
            says = (
                f"A {opening.kind} of {named(room)} was read with a confidence of "
                f"{opening.confidence:.0%}{perhaps}."
            )
            yield (1 - opening.confidence) * _LITTLE, Aspect.OPENINGS, says


def _of_no_room(plan: Plan, shares: Mapping[str, Share]) -> Iterator[Check]:
    """Yield what is doubted of the whole plan but for its scales, a middling room at stake."""
    middling = median(shares.values()) if shares else 0.0
    for doubt in plan.doubts:
        if doubt.room is None and doubt.aspect is not Aspect.SCALE:
            yield Check(
                aspect=doubt.aspect,
                storey=plan.storeys[0].number,
                says=doubt.says,
                at_stake=_at_stake(doubt) * middling,
            )


def _at_stake(doubt: Doubt) -> Share:
    """Return the share of a room's floor that hangs on a doubt."""
    unsure = (1 - doubt.confidence) * _AT_STAKE.get(doubt.aspect, _LITTLE)
    return doubt.relative_error or unsure
