"""Plans that stand beside each other on one sheet become storeys, named by their captions.

A *group* is a set of rooms hardly further apart than walls are thick; a *caption* is a line of
lettering outside the rooms that names a storey. With captions for two storeys or more, each names
the group by it, and groups without one belong to the nearest that has one: a garage, or a part of
the building that a room not read cuts off. Without captions only groups of several rooms with ways
in that lie far apart are storeys of their own.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import combinations, permutations
from statistics import median

import shapely
from attrs import evolve, frozen
from shapely.geometry import Polygon

from estimator.intake.storey_names import StoreyName, storey_name
from estimator.measures import Ratio
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.plan.room import Room

Box = tuple[float, float, float, float]
"""Left, top, right and bottom."""

# Groups lie further apart than so many walls are thick and rooms are wide; with captions, less will
# do (common practice).
_CAPTIONED: tuple[Ratio, Ratio] = (2.5, 0.25)
_UNCAPTIONED: tuple[Ratio, Ratio] = (5.0, 0.9)
_THICKEST: Ratio = 0.15  # of a wall to the side of a room
# A group of its own without a caption.
_FEWEST_ROOMS, _FEWEST_OPENINGS = 3, 2
# A caption stands below or above its group rather than beside it.
_ASIDE = 2.0
# A caption is no further from its group than that is large.
_FARTHEST = 1.0
_MOST_STOREYS = 6  # on one sheet

_PROBABLY = 0.6


@frozen(kw_only=True)
class Caption:
    """A line of lettering and the box around it, in the unit of the outlines."""

    text: str
    box: Box


@frozen(kw_only=True)
class _Group:
    """Rooms that stand together."""

    rooms: tuple[Room, ...]

    @property
    def box(self) -> Box:
        """The box around them."""
        left, top, right, bottom = shapely.total_bounds(_outlines(self.rooms)).tolist()
        return left, top, right, bottom

    @property
    def size(self) -> float:
        """Its diagonal."""
        left, top, right, bottom = self.box
        return math.hypot(right - left, bottom - top)

    @property
    def is_whole(self) -> bool:
        """Whether it may be a storey by itself."""
        openings = sum(len(room.openings) for room in self.rooms)
        return len(self.rooms) >= _FEWEST_ROOMS and openings >= _FEWEST_OPENINGS


def in_storeys(plan: Plan, captions: Iterable[Caption]) -> Plan:
    """Return a plan of one storey as the storeys that its sheet shows, from below upwards.

    Examples
    --------
    >>> from estimator.plan.geometry import rectangle
    >>> rooms = [Room(id=f"{left}", name="", outline=rectangle(4, 3, left=left)) for left in (0, 9)]
    >>> plan = Plan(rooms=tuple(rooms))
    >>> below = [Caption(text=text, box=(left, 4.0, left + 2.0, 4.2))
    ...          for text, left in (("First floor", 0), ("Ground floor", 9))]
    >>> found = in_storeys(plan, below)
    >>> [storey.name for storey in found.storeys], [room.storey for room in found.rooms]
    (['Ground floor', 'First floor'], [1, 0])
    """
    if len(plan.storeys) > 1 or not plan.rooms:
        return plan
    told = _told(captions)
    if len(told) > 1:
        parts = _by_captions(_groups(plan.rooms, _CAPTIONED), told)
        if len(parts) > 1:
            return _parted(plan, parts)
    if len(told) == 1:
        name = next(iter(told.values()))[0][0].text
        return evolve(plan, storeys=(evolve(plan.storeys[0], name=name),))
    return _far_apart(plan)


def _outlines(rooms: Iterable[Room]) -> list[Polygon]:
    return [outline for room in rooms if (outline := room.outline or room.outline_px)]


def _told(captions: Iterable[Caption]) -> dict[int, list[tuple[StoreyName, Box]]]:
    """Return the storeys that captions name, by level, with every place where each is named."""
    told: dict[int, list[tuple[StoreyName, Box]]] = {}
    for caption in captions:
        if name := storey_name(caption.text):
            told.setdefault(name.level, []).append((name, caption.box))
    return told if len(told) <= _MOST_STOREYS else {}


def _groups(rooms: Sequence[Room], apart: tuple[Ratio, Ratio]) -> list[_Group]:
    """Return rooms in groups that lie so many walls and rooms apart."""
    outlines = _outlines(rooms)
    side = median(math.sqrt(outline.area) for outline in outlines)
    reach = max(apart[0] * min(_wall(outlines), _THICKEST * side), apart[1] * side)
    near = shapely.union_all([outline.buffer(reach / 2) for outline in outlines])
    parts = shapely.get_parts(near).tolist()
    found = [
        tuple(room for room, outline in zip(rooms, outlines, strict=True) if part.contains(outline))
        for part in parts
    ]
    return [_Group(rooms=group) for group in found if group]


def _wall(outlines: Sequence[Polygon]) -> float:
    """Return how far rooms usually are from the nearest other one."""
    if len(outlines) < 2:
        return 0.0
    tree = shapely.STRtree(outlines)
    _, gaps = tree.query_nearest(outlines, exclusive=True, all_matches=False, return_distance=True)
    return float(median(gaps.tolist()))


def _by_captions(
    groups: Sequence[_Group], told: dict[int, list[tuple[StoreyName, Box]]]
) -> list[tuple[StoreyName | None, _Group]]:
    """Return each storey named with all groups that belong to it, from below upwards."""
    away = {
        (level, at): min(_away(box, group) for _, box in told[level])
        for level in told
        for at, group in enumerate(groups)
    }
    best = _assigned(away)
    if len(best) < 2 or any(
        away[level, at] > _FARTHEST * groups[at].size for level, at in best.items()
    ):
        return []
    levels = sorted(best)
    whole = _with_the_rest(
        [groups[best[level]] for level in levels],
        [group for at, group in enumerate(groups) if at not in best.values()],
    )
    return [(told[level][0][0], group) for level, group in zip(levels, whole, strict=True)]


def _assigned(away: Mapping[tuple[int, int], float]) -> dict[int, int]:
    """Return the group of each level so that captions are nearest on the whole, one to one."""
    levels = sorted({level for level, _ in away})
    nearest = sorted(away, key=lambda pair: away[pair])
    groups = list(dict.fromkeys(at for _, at in nearest))[: _MOST_STOREYS + 1]
    count = min(len(levels), len(groups))
    ways = (
        dict(zip(some, taken, strict=True))
        for some in combinations(levels, count)
        for taken in permutations(groups, count)
    )
    return min(ways, key=lambda way: sum(away[pair] for pair in way.items()))


def _with_the_rest(whole: Sequence[_Group], rest: Iterable[_Group]) -> list[_Group]:
    """Return whole groups, each with those of the rest that lie nearest to it."""
    tree = shapely.STRtree([shapely.union_all(_outlines(group.rooms)) for group in whole])
    rooms = [list(group.rooms) for group in whole]
    for group in rest:
        rooms[int(tree.nearest(shapely.union_all(_outlines(group.rooms))))] += group.rooms
    return [_Group(rooms=tuple(together)) for together in rooms]


def _away(box: Box, group: _Group) -> float:
    """Return how far a caption stands from a group, counted double beside it."""
    left, top, right, bottom = group.box
    across, down = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    aside = max(left - across, across - right, 0.0)
    return _ASIDE * aside + max(top - down, down - bottom, 0.0)


def _far_apart(plan: Plan) -> Plan:
    """Return the plan with whole groups far apart as storeys, numbered as they are read."""
    groups = _groups(plan.rooms, _UNCAPTIONED)
    whole = [group for group in groups if group.is_whole]
    if not 1 < len(whole) <= _MOST_STOREYS:
        return plan
    whole = _with_the_rest(whole, [group for group in groups if not group.is_whole])
    order = {room.id: at for at, room in enumerate(plan.rooms)}
    whole.sort(key=lambda group: min(order[room.id] for room in group.rooms))
    says = (
        f"{len(whole)} plans stand apart on the sheet and are taken as storeys of one building; "
        "remove what shows the same rooms twice."
    )
    doubt = Doubt(aspect=Aspect.OTHER, says=says, confidence=_PROBABLY)
    parted = _parted(plan, [(None, group) for group in whole])
    return evolve(parted, doubts=(*parted.doubts, doubt))


def _parted(plan: Plan, parts: Sequence[tuple[StoreyName | None, _Group]]) -> Plan:
    number = {room.id: at for at, (_, group) in enumerate(parts) for room in group.rooms}
    return evolve(
        plan,
        storeys=tuple(
            evolve(plan.storeys[0], number=at, name=name.text if name else f"Storey {at + 1}")
            for at, (name, _) in enumerate(parts)
        ),
        rooms=tuple(evolve(room, storey=number[room.id]) for room in plan.rooms),
    )
