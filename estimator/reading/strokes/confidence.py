"""How sure each room is, and the doubts to put before the client."""

import cv2
import numpy as np
from shapely.geometry import Polygon

from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.room import Room
from estimator.reading.frame import Frame
from estimator.reading.settings import Settings
from estimator.reading.strokes.faces import Faces
from estimator.reading.strokes.walls import Strokes


def room_confidence(
    faces: Faces, number: int, outline: Polygon, zoom: float, settings: Settings
) -> float:
    """Return how likely it is that a room is there and shaped as read.

    What speaks against a room is the share of its edge that is neither wall ink nor an opening the
    drawing itself shows, an opening left between facing walls, and having no way in.
    """
    door = faces.door * zoom
    guessed = sum(
        closure.gap.width_px * zoom
        for closure in faces.closures
        if number in closure.sides and not closure.evidence.supports(settings)
    )
    sure = 0.92 - 1.2 * guessed / outline.length
    if not any(number in closure.sides for closure in faces.closures):
        sure -= 0.25
    if number in faces.left_open:
        sure -= 0.15
    if outline.area < door**2:
        sure -= 0.15
    bulk = 16 * outline.area / outline.length**2  # 1 for a square
    if bulk < 0.25:
        sure -= 0.15
    return float(min(0.98, max(0.05, sure)))


def doubts_about(
    rooms: dict[int, Room], faces: Faces, framed: Frame, strokes: Strokes, settings: Settings
) -> tuple[Doubt, ...]:
    """Say in words what was read weakly, of each room by its face and of the whole plan."""
    doubts = []

    def doubt(room: Room | None, says: str, confidence: float, error: float = 0.0) -> None:
        doubts.append(
            Doubt(
                aspect=Aspect.OUTLINE,
                room=room.id if room else None,
                says=says,
                confidence=confidence,
                relative_error=error,
            )
        )

    for number, room in rooms.items():
        bounds = [closure for closure in faces.closures if number in closure.sides]
        if not all(closure.firm for closure in bounds):
            doubt(room, f"{room.name} is closed by a wide gap that may not be a door.", 0.6)
        if number in faces.left_open:
            doubt(room, f"{room.name} may be two rooms: a wide opening in it was left open.", 0.7)
        if not bounds:
            doubt(room, f"{room.name} has no door to be seen; it may be a shaft or a void.", 0.6)
    coarse = _edge_error(rooms, framed)
    if coarse > settings.coarse_least:
        doubt(
            None,
            f"The picture is coarse: half a pixel at the walls is {coarse:.0%} of a room's floor.",
            0.7,
            min(1.0, coarse),
        )
    loose = _loose_share(faces, strokes)
    if loose > settings.loose_least:
        doubt(None, f"{loose:.0%} of the walls bound no room; a room may be missing.", 0.5)
    return tuple(doubts)


def _edge_error(rooms: dict[int, Room], framed: Frame) -> float:
    """Return the share of the median room's floor that half a working pixel at its edge makes."""
    shares = sorted(
        0.5 * max(1.0, framed.zoom) * room.outline_px.length / room.outline_px.area
        for room in rooms.values()
        if room.outline_px
    )
    return shares[len(shares) // 2] if shares else 0.0


def _loose_share(faces: Faces, strokes: Strokes) -> float:
    """Return the share of wall ink farther from every room than walls are thick."""
    size = 2 * round(2 * strokes.thickness[1]) + 1
    near = cv2.dilate((faces.label > 0).view(np.uint8), np.ones((size, size), np.uint8)) > 0
    drawn = int(np.count_nonzero(strokes.walls))
    return float(np.count_nonzero(strokes.walls & ~near)) / max(1, drawn)
