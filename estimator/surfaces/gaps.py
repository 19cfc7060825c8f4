"""Doors, windows and passages: what they take from the walls and the faces they bring."""

import math
from collections.abc import Iterator
from functools import partial

from attrs import frozen

from estimator.errors import PlanError, ScaleUnknown
from estimator.measures import Metres, SquareMetres
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.room import Basis, Room
from estimator.surfaces.book import SurfaceBook
from estimator.surfaces.headroom import Headroom
from estimator.surfaces.schedule import Lie, Surface, SurfaceKind
from estimator.surfaces.scope import Scope


@frozen(kw_only=True)
class Gap:
    """One opening as it lies under the ceiling, the whole of it and what is within reach.

    Parameters
    ----------
    face
        Area of the gap, which is that of the leaf or the glass in it.
    reveal
        Area of its sides, seen from this room.
    assumed
        Whether the book had to say how high it is or where it begins.
    """

    kind: OpeningKind
    face: SquareMetres
    face_reached: SquareMetres
    reveal: SquareMetres
    reveal_reached: SquareMetres
    assumed: bool


@frozen(kw_only=True)
class Gaps:
    """All openings of a room."""

    gaps: tuple[Gap, ...]
    basis: Basis

    @property
    def area(self) -> SquareMetres:
        """What they take from the walls."""
        return sum(gap.face for gap in self.gaps)

    @property
    def reached(self) -> SquareMetres:
        """What they take from the walls within reach."""
        return sum(gap.face_reached for gap in self.gaps)

    @property
    def doors(self) -> int:
        """How many of them are doors."""
        return sum(gap.kind is OpeningKind.DOOR for gap in self.gaps)

    @property
    def assumed(self) -> tuple[OpeningKind, ...]:
        """The kinds of those the book had to size, each once."""
        return tuple(dict.fromkeys(gap.kind for gap in self.gaps if gap.assumed))

    def surfaces(self, zone: str, scope: Scope) -> Iterator[Surface]:
        """Yield the faces of doors on this room's side, the glass, and the reveals of all."""
        doors = [gap for gap in self.gaps if gap.kind is OpeningKind.DOOR]
        windows = [gap for gap in self.gaps if gap.kind is OpeningKind.WINDOW]
        for kind, item, label, found, wanted in (
            (SurfaceKind.DOOR, "door", "Doors", doors, scope.doors),
            (SurfaceKind.GLASS, "glass", "Window glass", windows, scope.glass),
        ):
            if found:
                yield Surface(
                    kind=kind,
                    item=item,
                    label=label,
                    count=len(found),
                    lie=Lie.UPRIGHT,
                    zone=zone,
                    gross=sum(gap.face for gap in found),
                    treated=sum(gap.face_reached for gap in found) if wanted else 0.0,
                    basis=self._basis(found),
                )
        reveal = sum(gap.reveal for gap in self.gaps)
        if reveal:
            yield Surface(
                kind=SurfaceKind.REVEAL,
                item="reveal",
                label="Reveals",
                count=len(self.gaps),
                lie=Lie.UPRIGHT,
                zone=zone,
                gross=reveal,
                treated=sum(gap.reveal_reached for gap in self.gaps) if scope.reveals else 0.0,
                basis=Basis.ASSUMED,
            )

    def _basis(self, found: list[Gap]) -> Basis:
        return Basis.ASSUMED if any(gap.assumed for gap in found) else self.basis


def gaps(room: Room, over: Headroom, book: SurfaceBook, reach: Metres) -> Gaps:
    """Return the openings of a room as they lie under its ceiling.

    Raises
    ------
    ScaleUnknown
        When an opening has no place in metres.
    PlanError
        When an opening has no width.
    """
    return Gaps(
        gaps=tuple(_gap(opening, room, over, book, reach) for opening in room.openings),
        basis=room.basis,
    )


def _gap(opening: Opening, room: Room, over: Headroom, book: SurfaceBook, reach: Metres) -> Gap:
    """Return an opening cut off at the ceiling: what lies below its head but not below its sill."""
    if opening.start is None or opening.end is None:
        raise ScaleUnknown(
            f"{opening.kind} of {room.name or room.id}",
            "it has no place on the wall in metres",
            "set the scale of the plan first",
        )
    width = math.dist(opening.start, opening.end)
    if width == 0:
        raise PlanError(
            f"{opening.kind} of {room.name or room.id}", "it has no width", "draw its ends apart"
        )
    usual = book.opening(opening.kind)
    sill = usual.sill if opening.sill is None else opening.sill
    head = sill + (usual.height if opening.height is None else opening.height)
    below = partial(over.stretch, opening.start, opening.end)
    face = below(head) - below(sill)
    reached = below(min(head, reach)) - below(min(sill, reach))
    bottom = width if sill > 0 else 0.0
    is_window = opening.kind is OpeningKind.WINDOW
    return Gap(
        kind=opening.kind,
        face=face,
        face_reached=reached,
        reveal=usual.reveal * (2 * face / width + width + bottom),
        reveal_reached=usual.reveal
        * (
            2 * reached / width
            + (width if head <= reach else 0.0)
            + (bottom if sill <= reach else 0.0)
        ),
        assumed=opening.height is None or (is_window and opening.sill is None),
    )
