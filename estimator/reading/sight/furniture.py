"""Furniture, fittings and stairs, from what the network sees on the floors of rooms."""

from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from attrs import evolve, frozen
from shapely.geometry import Polygon

from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.furnishing import Furnishing
from estimator.plan.room import Room
from estimator.reading.frame import Frame
from estimator.reading.sight.blobs import Blob, Held
from estimator.reading.sight.classes import CONTENTS, CONTENTS_STEP, STAIRS
from estimator.reading.sight.footprints import Rectangle, rectangles_of, shape_of, tilt

STAIRWELL_LEAST = 0.6
"""A room of which stairs take more than this share is a stairwell."""

# A piece is at least this many wall thicknesses deep and so many squares, or it is a flaw.
_DEPTH_LEAST = 0.6
_SQUARES_LEAST = 8
# Less sure pieces are left out; stairs, which take floor away, must be surer.
_SURE_LEAST = 0.7
_STAIRS_SURE_LEAST = 0.8
# A piece that fills less of its rectangle than this is odd, or of another shape.
_FULL = 0.85
_ODD = 0.65
_TABLE = CONTENTS.index("table")
# A chair drawn up to a table shows so many times as wide as deep.
_TUCKED_IN = 1.35
# A bed this many times as long as wide is for one.
_FOR_ONE = 1.65


@frozen(kw_only=True)
class _Look:
    """How a kind of furniture looks from above.

    Parameters
    ----------
    slug
        What it is called in the book.
    most
        Its longer side is at most so many times the shorter.
    row
        Where pieces stand side by side in rows: the side along the row as a multiple of the other.
    shaped
        Whether it may be round or run around a corner.
    """

    slug: str
    most: float
    row: float | None = None
    shaped: bool = False


# Sides follow from the usual sizes in the book, with room for what is drawn otherwise.
_LOOKS = {
    "bed": _Look(slug="bed_double", most=2.6),
    "sofa": _Look(slug="sofa", most=4.5, shaped=True),
    "armchair": _Look(slug="armchair", most=1.5, row=1.0),
    "chair": _Look(slug="chair", most=1.7, row=1.0),
    "table": _Look(slug="table", most=6.0, shaped=True),
    "worktop": _Look(slug="worktop", most=20.0, shaped=True),
    "cupboard": _Look(slug="cupboard", most=15.0, shaped=True),
    "refrigerator": _Look(slug="refrigerator", most=1.6, row=1.0),
    "cooker": _Look(slug="cooker", most=1.7, row=1.1),
    "sink": _Look(slug="sink", most=3.5),
    "toilet": _Look(slug="toilet", most=2.6),
    "wash_basin": _Look(slug="wash_basin", most=2.2, row=1.2),
    "bath": _Look(slug="bath", most=3.2),
    "shower": _Look(slug="shower", most=2.2),
    "washing_machine": _Look(slug="washing_machine", most=1.5, row=1.0),
}


def furnished(
    room: Room, number: int, held: Held, wall_px: float, zoom: tuple[float, float], framed: Frame
) -> Room:
    """Return a room with what is seen to stand in it; of a stairwell only the use is told."""
    blobs = [
        blob
        for blob in held.blobs(number)
        if blob.share >= (_STAIRS_SURE_LEAST if blob.what == STAIRS else _SURE_LEAST)
    ]
    stairs = sum(blob.area for blob in blobs if blob.what == STAIRS)
    if stairs > STAIRWELL_LEAST * held.floor(number):
        return evolve(room, use="stairs")
    turn = tilt(held.rooms == number) if blobs else 0.0
    wall = wall_px / CONTENTS_STEP
    scale = CONTENTS_STEP * np.array(zoom)
    return evolve(
        room,
        furnishings=tuple(
            Furnishing(
                kind=slug,
                footprint_px=shapely.transform(footprint, lambda at: framed.back(at * scale)),
                confidence=min(1.0, blob.share),
            )
            for blob in blobs
            for slug, footprint in _pieces(blob, turn, wall)
        ),
    )


def furniture_doubts(rooms: Sequence[Room]) -> Iterator[Doubt]:
    """Yield one sentence for all rooms on the furniture seen in them; none when there is none."""
    sure = [piece.confidence for room in rooms for piece in room.furnishings]
    if sure:
        count = sum(bool(room.furnishings) for room in rooms)
        says = (
            f"Furniture and fittings were read off the picture in {count} of {len(rooms)} rooms; "
            "where none or only built-in pieces were seen, the usual ones are assumed."
        )
        yield Doubt(aspect=Aspect.CONTENTS, says=says, confidence=sum(sure) / len(sure))


def _pieces(blob: Blob, turn: float, wall: float) -> Iterator[tuple[str, Polygon]]:
    """Yield slug and footprint, in squares, of each piece a blob is; none when it is odd."""
    box, around = rectangles_of(blob, turn)
    full = blob.area / (around.length * around.depth)
    if blob.area < _SQUARES_LEAST or box.depth < _DEPTH_LEAST * wall:
        return
    if blob.what == STAIRS:
        shape = box.polygon if full >= _FULL else shape_of(blob)
        if shape is not None:
            yield "stairs", shape
        return
    look = _LOOKS[CONTENTS[blob.what]]
    if look.shaped and full < _FULL:
        shape = shape_of(blob)
        if shape is not None:
            yield look.slug, shape
    elif full >= _ODD:
        for piece in _parted(box, around.aspect, look, blob):
            yield _slug(look, piece), piece.polygon


def _slug(look: _Look, piece: Rectangle) -> str:
    is_single = look.slug == "bed_double" and piece.aspect >= _FOR_ONE
    return "bed_single" if is_single else look.slug


def _parted(box: Rectangle, aspect: float, look: _Look, blob: Blob) -> list[Rectangle]:
    """Return the pieces that stand in a row, or the only one; none where they are too long."""
    hidden = _TUCKED_IN if look.row and _TABLE in blob.beside else 1.0
    if aspect <= look.most * hidden:
        return [box]
    return box.parted(round(aspect / (look.row * hidden))) if look.row else []
