"""Doors, windows and passages, from what the network sees in the walls."""

import math

import cv2
import numpy as np
from attrs import frozen

from estimator.plan.opening import Hinge, Opening, OpeningKind
from estimator.plan.room import Room
from estimator.reading.arrays import Labels, Places
from estimator.reading.frame import Frame
from estimator.reading.placing import on_wall
from estimator.reading.settings import Settings
from estimator.reading.sight.classes import DOOR
from estimator.reading.sight.network import Sight
from estimator.reading.sight.patches import Patch, patches, seen_as_passage
from estimator.reading.sight.sureness import opening_sureness
from estimator.reading.sight.swings import swing

# An opening is beside a room when it comes this near to its floor, in the network's pixels.
_BESIDE_PX = 3
# A strip of an opening beside a room has at least so many pixels, and so many of the longest's.
_STRIP_LEAST, _STRIP_SHARE = 3, 0.2


@frozen(kw_only=True, eq=False)
class SeenOpening:
    """One door, window or passage beside one or two rooms.

    Parameters
    ----------
    ends
        Its jambs beside each room, float (2, 2), by the room's number, all in the same order.
    other
        The room on the other side, by the room's number; 0 for none.
    opens_into
        Number of the room that its leaves swing into; 0 for outside, None when nothing swings.
    hinge
        Where its leaves hang, by the order of the ends.
    """

    kind: OpeningKind
    confidence: float
    ends: dict[int, Places]
    other: dict[int, int]
    opens_into: int | None
    hinge: Hinge | None


def seen_openings(
    seen: Labels, sight: Sight, wall_px: float, settings: Settings
) -> list[SeenOpening]:
    """Return every door, window and passage that touches a room."""
    near, low = _beside(seen)
    found = []
    for patch in patches(sight, wall_px):
        opening = _opening(patch, near, low, seen, sight, wall_px)
        if opening and opening.confidence >= settings.opening_least:
            found.append(opening)
    return found


def _beside(seen: Labels) -> tuple[Labels, Labels]:
    """Return the room of higher, and that of lower number among those near each pixel."""
    size = np.ones((2 * _BESIDE_PX + 1,) * 2, np.uint8)
    near = cv2.dilate(seen.astype(np.float32), size).astype(np.int32)
    most = int(seen.max()) + 1
    reverse = np.where(seen > 0, most - seen, 0).astype(np.float32)
    low = cv2.dilate(reverse, size).astype(np.int32)
    return near, np.where(low > 0, most - low, 0)


def _opening(
    patch: Patch, near: Labels, low: Labels, seen: Labels, sight: Sight, wall_px: float
) -> SeenOpening | None:
    at = patch.rows, patch.columns
    high, lower = near[at], low[at]
    beside = {int(room) for room in np.unique(np.concatenate([high, lower])) if room}
    touching = {room: (high == room) | (lower == room) for room in beside}
    counts = {room: int(mask.sum()) for room, mask in touching.items()}
    least = max(_STRIP_LEAST, _STRIP_SHARE * max(counts.values(), default=0))
    rooms = [room for room in sorted(beside) if counts[room] >= least]
    if not rooms:
        return None
    places = np.stack([patch.columns, patch.rows], axis=1).astype(np.float64) + 0.5
    along = _direction(places[touching[max(rooms, key=lambda room: counts[room])]])
    whole, across = _ends(places, along), np.array([-along[1], along[0]])
    thick = len(places) / math.dist(*whole)
    aside = (thick / 2 + _BESIDE_PX) * across
    sides = {side: _room_along(whole + side * aside, seen) for side in (1, -1)}
    if sides[1] == sides[-1] != 0:
        return None  # a gap in a wall that stands free within a room
    ends = {room: _ends(places[touching[room]], along) for room in rooms}
    width = max(math.dist(*end) for end in ends.values())
    kind, kind_share = _kind(patch, sight)
    swings = swing(sight, whole, across, thick) if kind is OpeningKind.DOOR else None
    return SeenOpening(
        kind=kind,
        confidence=opening_sureness(kind, patch.share, width, wall_px, kind_share),
        ends=ends,
        other={
            room: max(((counts[one], one) for one in rooms if one != room), default=(0, 0))[1]
            for room in rooms
        },
        opens_into=sides[swings.side] if swings else None,
        hinge=swings.hinge if swings else None,
    )


def _kind(patch: Patch, sight: Sight) -> tuple[OpeningKind, float]:
    """Return what a patch is, and how far it is seen to be that and not another of its class.

    A passage is a gap of which most is seen to have no leaf.
    """
    if patch.shows != DOOR:
        return OpeningKind.WINDOW, 1.0
    passage = seen_as_passage(sight, patch.rows, patch.columns)
    return (OpeningKind.PASSAGE, passage) if passage > 0.5 else (OpeningKind.DOOR, 1 - passage)


def _direction(places: Places) -> Places:
    """Return the unit vector along a strip of pixels."""
    _, _, directions = np.linalg.svd(places - places.mean(axis=0), full_matrices=False)
    return np.asarray(directions[0], np.float64)


def _ends(places: Places, along: Places) -> Places:
    """Return the two ends of a strip of pixels, shape (2, 2)."""
    middle = places.mean(axis=0)
    reach = (places - middle) @ along
    half = np.array([[reach.min() - 0.5], [reach.max() + 0.5]])
    return np.asarray(middle + half * along)


def _room_along(ends: Places, seen: Labels) -> int:
    """Return the number of the room along most of a line; 0 for none."""
    line = ends[0] + np.linspace(0.1, 0.9, 9)[:, None] * (ends[1] - ends[0])
    columns, rows = np.clip(line, 0, np.array(seen.shape[::-1]) - 1).astype(int).T
    return int(np.bincount(seen[rows, columns]).argmax())


def openings_of(
    room: Room,
    number: int,
    found: list[SeenOpening],
    ids: dict[int, str],
    zoom: tuple[float, float],
    framed: Frame,
) -> tuple[Opening, ...]:
    """Return a room's openings, each from jamb to jamb on its outline."""
    assert room.outline_px is not None
    openings: list[Opening] = []
    for one in found:
        if number not in one.ends:
            continue
        ends = framed.back(one.ends[number] * np.array(zoom))
        placed = on_wall(room.outline_px, (ends[0], ends[1]))
        if placed is None:
            continue
        openings.append(
            Opening(
                id=f"{room.id}-{one.kind.value}-{len(openings) + 1}",
                kind=one.kind,
                start_px=placed[0],
                end_px=placed[1],
                leads_to=ids.get(one.other[number]),
                opens_in=None if one.opens_into is None else one.opens_into == number,
                hinge=one.hinge,
                confidence=one.confidence,
            )
        )
    return tuple(openings)
