"""Typed entries get their measures in metres: units filled in, heights and openings handed out."""

import math
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Sequence

from attrs import evolve, frozen

from estimator.errors import MissingUnit, QuantityError
from estimator.intake.room_names import same_name
from estimator.intake.room_words import EXAMPLE, Entry
from estimator.measures import Metres, checked
from estimator.quantities.lengths import WrittenLength, quoted

UNIT_NAMES = {
    "m": "metres",
    "cm": "centimetres",
    "mm": "millimetres",
    "ft": "feet",
    "in": "inches",
    "yd": "yards",
}

_SIDES = (0.5, 500.0)  # metres: a cupboard at least, the longest hall at most
_HEIGHTS = (1.0, 50.0)  # metres
_RATIO = 4 / 3  # width to depth of a room whose area alone is known


@frozen(kw_only=True, field_transformer=checked)
class SizedRoom:
    """An entry with its measures in metres.

    Parameters
    ----------
    unit_taken
        The unit taken from the rest of the text; None when it was written.
    is_usual
        Whether it has the usual size of its use, since none was given.
    """

    entry: Entry
    width: Metres
    depth: Metres
    height: Metres | None
    unit_taken: str | None
    is_usual: bool = False


@frozen(kw_only=True)
class Said:
    """The rooms of a text, and what was said of all ceilings and of rooms already there.

    Parameters
    ----------
    joints
        Pieces that only say how rooms named elsewhere are joined.
    """

    rooms: tuple[Entry, ...]
    joints: tuple[Entry, ...] = ()
    height: WrittenLength | None = None
    height_text: str = ""
    is_height_for_all: bool = True


def gathered(
    found: Sequence[Entry],
    *,
    there: Collection[str] = (),
    has_usual_size: Callable[[str], bool] = lambda _: False,
) -> Said:
    """Return the rooms, with the pieces that say more about a room joined to it.

    Parameters
    ----------
    there
        Names of rooms that are on the plan already.
    has_usual_size
        Whether a room of a name may go without a size.

    Raises
    ------
    QuantityError
        When a piece is no room and says nothing about one, or two heights are said of all rooms.
    """
    on_line = Counter(entry.line for entry in found if entry.has_size)
    rooms: list[Entry] = []
    joints: list[Entry] = []
    common: list[Entry] = []
    for entry in found:
        known = [*there, *(room.name for room in rooms)]
        if entry.links and not entry.has_size and _is_any(entry.name, known):
            joints.append(entry)
            continue
        if entry.has_size or (entry.name and has_usual_size(entry.name)):
            rooms.append(entry)
            continue
        if entry.name or not (entry.height or entry.doors or entry.windows or entry.links):
            raise QuantityError(quoted(entry.text), "it has no size", EXAMPLE)
        if entry.doors or entry.windows or entry.links:
            if not rooms:
                raise QuantityError(quoted(entry.text), "no room stands before it", EXAMPLE)
            doors, windows = rooms[-1].doors + entry.doors, rooms[-1].windows + entry.windows
            links = (*rooms[-1].links, *entry.links)
            rooms[-1] = evolve(rooms[-1], doors=doors, windows=windows, links=links)
        if entry.height is None:
            continue
        is_its_own = len(on_line) > 1 and on_line[entry.line] == 1 and not entry.is_for_all
        if is_its_own and rooms and rooms[-1].line == entry.line and not rooms[-1].height:
            rooms[-1] = evolve(rooms[-1], height=entry.height)
        else:
            common.append(entry)
    if len(common) > 1:
        raise QuantityError(
            quoted(common[1].text), "another height was said of all ceilings", "give one for all"
        )
    if not common:
        return Said(rooms=tuple(rooms), joints=tuple(joints))
    return Said(
        rooms=tuple(rooms),
        joints=tuple(joints),
        height=common[0].height,
        height_text=common[0].text,
        is_height_for_all=common[0].is_for_all or len(rooms) == 1,
    )


def _is_any(name: str, known: Iterable[str]) -> bool:
    return bool(name) and any(same_name(name, other) for other in known)


def default_unit(said: Said) -> str | None:
    """Return the one unit written anywhere; None when there is none or more than one."""
    heights = [room.height for room in said.rooms] + [said.height]
    of_sides = {side.unit for room in said.rooms for side in room.sides if side.unit}
    of_others = {height.unit for height in heights if height and height.unit}
    of_others |= {room.area_unit for room in said.rooms if room.area_unit}
    units = of_sides or of_others
    return units.pop() if len(units) == 1 else None


def sized(
    entry: Entry,
    unit: str | None,
    height: WrittenLength | None,
    *,
    house_unit: str | None = None,
    usual: tuple[Metres, Metres] | None = None,
) -> SizedRoom:
    """Return an entry in metres.

    Parameters
    ----------
    unit
        What to take where the entry writes none.
    height
        What was said of all ceilings.
    house_unit
        What to take without a word where none is written anywhere.
    usual
        What the room measures when the entry gives no size.

    Raises
    ------
    QuantityError
        MissingUnit when it has no unit and there is none to take; else when no room can be so
        large or so small.
    """
    where = quoted(entry.text)
    height = entry.height or height
    written = [side.unit for side in entry.sides if side.unit]
    taken = None
    if not entry.has_size and usual:
        sides = list(usual)
    elif entry.area is not None:
        width = math.sqrt(entry.area * _RATIO)
        sides = [width, entry.area / width if width else 0.0]
    else:
        if not written:
            taken = unit or house_unit
            if taken is None:
                raise MissingUnit(
                    where, "it has no unit and none is clear from the rest", "write m or ft"
                )
        sides = [
            side.metres(where, _unit_for(place, entry.sides) or taken)
            for place, side in enumerate(entry.sides)
        ]
    for side in sides[:2]:
        _check(side, _SIDES, where, "a side")
    if len(sides) == 3 and entry.height:
        raise QuantityError(where, "it has two heights", "give one")
    top = sides[2] if len(sides) == 3 else None
    if top is None and height is not None:
        top = height.metres(where, written[-1] if written else unit or house_unit)
    if top is not None:
        _check(top, _HEIGHTS, where, "a ceiling height")
    return SizedRoom(
        entry=entry,
        width=sides[0],
        depth=sides[1],
        height=top,
        unit_taken=taken if unit else None,
        is_usual=not entry.has_size,
    )


def ceiling_height(written: WrittenLength, text: str, unit: str | None) -> Metres:
    """Return the height that was said of all ceilings.

    Raises
    ------
    QuantityError
        When it has no unit and there is none to take, or no ceiling can be so high or low.
    """
    height = written.metres(quoted(text), unit)
    _check(height, _HEIGHTS, quoted(text), "a ceiling height")
    return height


def _unit_for(place: int, sides: Sequence[WrittenLength]) -> str | None:
    """Return the unit a side shares: its own, the next one written, or the last before it."""
    behind = [side.unit for side in sides[place:] if side.unit]
    before = [side.unit for side in sides[:place] if side.unit]
    return next(iter(behind + before[::-1]), None)


def _check(value: Metres, bounds: tuple[Metres, Metres], where: str, what: str) -> None:
    least, most = bounds
    if not least <= value <= most:
        raise QuantityError(
            where,
            f"{what} of {value:.4g} m cannot be",
            f"give one from {least:g} m to {most:g} m, and check its unit",
        )
