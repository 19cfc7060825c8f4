"""Doors, windows and passages, from what the network sees in the walls."""

import cv2
import numpy as np
from attrs import frozen

from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.room import Room
from estimator.reading.arrays import Labels, Places
from estimator.reading.frame import Frame
from estimator.reading.placing import on_wall
from estimator.reading.settings import Settings
from estimator.reading.sight.classes import DOOR, WINDOW
from estimator.reading.sight.network import Sight

_KINDS = {DOOR: OpeningKind.DOOR, WINDOW: OpeningKind.WINDOW}

# An opening is beside a room when it comes this near to its floor, in the network's pixels.
_BESIDE_PX = 3


@frozen(kw_only=True, eq=False)
class SeenOpening:
    """One patch of door or window beside one or two rooms.

    Parameters
    ----------
    places
        Its pixels beside each room, float (N, 2), by the room's number.
    other
        The room on the other side, by the room's number; 0 for none.
    """

    kind: OpeningKind
    confidence: float
    places: dict[int, Places]
    other: dict[int, int]


def seen_openings(seen: Labels, sight: Sight, settings: Settings) -> list[SeenOpening]:
    """Return every patch of door or window that touches a room."""
    classes = sight.classes
    size = 2 * _BESIDE_PX + 1
    near = cv2.dilate(seen.astype(np.float32), np.ones((size, size), np.uint8)).astype(np.int32)
    # Where two rooms are near, the dilation shows the one of the higher number; this the lower.
    reverse = np.where(seen > 0, seen.max() + 1 - seen, 0).astype(np.float32)
    low = cv2.dilate(reverse, np.ones((size, size), np.uint8)).astype(np.int32)
    low = np.where(low > 0, seen.max() + 1 - low, 0)
    found = []
    for number, kind in _KINDS.items():
        patch = (classes == number).view(np.uint8)
        count, label = cv2.connectedComponents(patch, connectivity=8)
        rows, columns = np.nonzero(label)
        order = np.argsort(label[rows, columns], kind="stable")
        rows, columns = rows[order], columns[order]
        ends = np.searchsorted(label[rows, columns], np.arange(1, count + 1))
        for start, end in zip(ends, [*ends[1:], len(rows)], strict=True):
            at = rows[start:end], columns[start:end]
            if len(at[0]) >= settings.opening_least_px:
                opening = _opening(kind, at, near, low, sight.shares[number])
                if opening.places:
                    found.append(opening)
    return found


def _opening(
    kind: OpeningKind,
    at: tuple[np.ndarray, np.ndarray],
    near: Labels,
    low: Labels,
    share: np.ndarray,
) -> SeenOpening:
    beside = {int(room) for room in np.unique(np.concatenate([near[at], low[at]])) if room}
    touching = {room: (near[at] == room) | (low[at] == room) for room in beside}
    counts = {room: int(mask.sum()) for room, mask in touching.items()}
    places = {
        room: np.stack([at[1][mask], at[0][mask]], axis=1) + 0.5
        for room, mask in touching.items()
        if counts[room] >= 3
    }
    other = {
        room: max((count, one) for one, count in counts.items() if one != room)[1]
        if len(counts) > 1
        else 0
        for room in places
    }
    return SeenOpening(kind=kind, confidence=float(share[at].mean()), places=places, other=other)


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
        if number not in one.places:
            continue
        ends = framed.back(_ends(one.places[number]) * np.array(zoom))
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
                confidence=one.confidence,
            )
        )
    return tuple(openings)


def _ends(places: Places) -> Places:
    """Return the two ends of a patch along its longer direction, shape (2, 2)."""
    middle = places.mean(axis=0)
    _, _, directions = np.linalg.svd(places - middle, full_matrices=False)
    along = directions[0]
    reach = (places - middle) @ along
    half = np.array([[reach.min() - 0.5], [reach.max() + 0.5]])
    return np.asarray(middle + half * along)
