"""The table that the work sheet on a phone saves, read back as what the crew wrote down."""

import csv
import io
import re
from collections import defaultdict
from collections.abc import Mapping, Sequence

from attrs import frozen

from estimator.errors import EstimatorError, SourceError
from estimator.estimation.figures import Figures
from estimator.quantities import Units, quantity
from estimator.quantities.shown import CREW_VOLUMES
from estimator.workflow.outcomes import Written

LARGEST_BYTES = 1_000_000

_HEAD = ["what", "field", "value"]
_VOLUME, _MINUTES, _NOTE = "really sprayed", "minutes it took", "remarks"
_ARRIVED, _LEFT, _PEOPLE = "arrived at; times of day follow from it", "left at", "people"
_STOP = re.compile(r"\d+ (?P<room>.+)")
_BARE = re.compile(r"\d+(?:[.,]\d+)?")
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})")

_Fields = dict[str, str]


@frozen(kw_only=True)
class SheetTable:
    """What a crew wrote on the work sheet.

    Parameters
    ----------
    rooms
        By the id of the room.
    minutes
        From arrival to leaving.
    unread
        What could not be read or told which room it belongs to, a few words each.
    """

    rooms: Mapping[str, Written]
    crew: int | None
    minutes: float | None
    note: str
    unread: tuple[str, ...]


def sheet_table(content: bytes, figures: Figures, units: Units) -> SheetTable:
    """Return what a table saved by a work sheet says.

    Raises
    ------
    SourceError
        When it is no such table.
    """
    stops, visit = _fields(content)
    unread: list[str] = []
    rooms = {
        room: _written(name, fields, units, unread)
        for room, name, fields in _matched(stops, figures, unread)
    }
    people = visit.get(_PEOPLE, "")
    return SheetTable(
        rooms=rooms,
        crew=int(people) if people.isdecimal() and int(people) else None,
        minutes=_between(visit.get(_ARRIVED, ""), visit.get(_LEFT, "")),
        note=visit.get(_NOTE, ""),
        unread=tuple(unread),
    )


def _fields(content: bytes) -> tuple[list[tuple[str, _Fields]], _Fields]:
    """Return the fields of each stop in order, by the name of the room, and of the visit."""
    if len(content) > LARGEST_BYTES:
        raise _no_table()
    try:
        rows = list(csv.reader(io.StringIO(content.decode("utf-8-sig"))))
    except (UnicodeDecodeError, csv.Error):
        raise _no_table() from None
    if not rows or rows[0] != _HEAD or any(len(row) != len(_HEAD) for row in rows if row):
        raise _no_table()
    cards: dict[str, _Fields] = {}
    for what, field, value in filter(None, rows[1:]):
        # A cell that a spreadsheet could take for a formula was written as text.
        cards.setdefault(what.removeprefix("'"), {})[field] = value.removeprefix("'").strip()
    stops = [
        (found["room"], fields)
        for what, fields in cards.items()
        if (found := _STOP.fullmatch(what)) and {_VOLUME, _MINUTES} & fields.keys()
    ]
    return stops, cards.get("visit", {})


def _no_table() -> SourceError:
    return SourceError(
        "the table",
        "it was not saved by a work sheet",
        "save what was used at the end of the work sheet and give that file",
    )


def _matched(
    stops: Sequence[tuple[str, _Fields]], figures: Figures, unread: list[str]
) -> list[tuple[str, str, list[_Fields]]]:
    """Return rooms with the stops in them; rooms of one name are told apart by their order."""
    planned, written = defaultdict(list), defaultdict(list)
    for room in figures.rooms:
        planned[room.name].append(room.room)
    for name, fields in stops:
        written[name].append(fields)
    found = []
    for name, own in written.items():
        rooms = planned.get(name, [])
        if len(rooms) == 1:
            found.append((rooms[0], name, own))
        elif len(rooms) == len(own):
            found += [(room, name, [fields]) for room, fields in zip(rooms, own, strict=True)]
        elif any(value for fields in own for value in fields.values()):
            unread.append(f"which room {name} is")
    return found


def _written(name: str, stops: Sequence[_Fields], units: Units, unread: list[str]) -> Written:
    """Return what was written about a room, that of several strengths together."""
    volumes, minutes = [], []
    for fields in stops:
        said, took = fields.get(_VOLUME, ""), fields.get(_MINUTES, "")
        if said:
            volume = _volume(said, units)
            if volume is None:
                unread.append(f"{said} in {name}")
            else:
                volumes.append(volume)
        if _BARE.fullmatch(took):
            minutes.append(float(took.replace(",", ".")))
    notes = [fields[_NOTE] for fields in stops if fields.get(_NOTE)]
    return Written(
        volume=sum(volumes) if volumes and len(volumes) == len(stops) else None,
        minutes=sum(minutes) if minutes and len(minutes) == len(stops) else None,
        note="; ".join(notes),
    )


def _volume(said: str, units: Units) -> float | None:
    """Return a volume in the crew's unit, which a bare number is in."""
    unit, size = CREW_VOLUMES[units]
    try:
        return quantity(f"{said} {unit}" if _BARE.fullmatch(said) else said, "m^3") / size
    except EstimatorError:
        return None


def _between(arrived: str, left: str) -> float | None:
    """Return the minutes from one time of day to another, over midnight where it must be."""
    times = [_CLOCK.fullmatch(each) for each in (arrived, left)]
    if times[0] is None or times[1] is None:
        return None
    began, ended = (60 * int(one[1]) + int(one[2]) for one in times if one)
    return float((ended - began) % (24 * 60)) or None
