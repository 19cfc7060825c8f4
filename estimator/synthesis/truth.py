"""The exact truth of a drawn plan, as a Plan in metres and pixels."""

from collections.abc import Callable

import numpy as np
from shapely.geometry import Polygon

from estimator.plan.furnishing import Furnishing
from estimator.plan.opening import Hinge, Opening, OpeningKind, Point
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey
from estimator.synthesis.layouts import Gap, Layout, Ring, Space

ToPixels = Callable[[Ring], Ring]
"""Maps points in metres of the layout to pixels of the finished picture, shape (N, 2)."""


def true_plan(layout: Layout, to_px: ToPixels, *, source: Source, metres_per_px: float) -> Plan:
    """Return what a perfect reader would read from the finished picture."""
    ids = {space.name: f"room-{at}" for at, space in enumerate(layout.spaces, 1) if space.is_room}
    return Plan(
        title=layout.title,
        storeys=(
            Storey(
                name="Ground floor",
                source=source,
                scale=Scale(
                    metres_per_px=metres_per_px, relative_error=0.0, basis="drawn to this scale"
                ),
            ),
        ),
        rooms=tuple(_room(layout, space, ids, to_px) for space in layout.spaces if space.is_room),
    )


def _room(layout: Layout, space: Space, ids: dict[str, str], to_px: ToPixels) -> Room:
    inside = layout.inside(space)
    gaps = [gap for gap in layout.gaps if space.name in (gap.room, gap.other)]
    return Room(
        id=ids[space.name],
        name=space.name,
        use=space.use,
        outline=Polygon(inside.round(6)),
        outline_px=Polygon(to_px(inside).round(2)),
        ceiling_height=space.height,
        openings=tuple(
            _opening(f"{ids[space.name]}-{at}", gap, space.name, ids, to_px)
            for at, gap in enumerate(gaps, 1)
        ),
        furnishings=tuple(
            Furnishing(
                kind=piece.kind,
                footprint=Polygon(piece.footprint().round(4)),
                footprint_px=Polygon(to_px(piece.footprint()).round(2)),
            )
            for piece in layout.pieces
            if piece.room == space.name
        ),
    )


def _opening(opening_id: str, gap: Gap, room: str, ids: dict[str, str], to_px: ToPixels) -> Opening:
    across = gap.front if gap.room == room else -gap.back
    ends = np.array([gap.place(0, across), gap.place(gap.width, across)])
    is_front = gap.room == room
    beyond = gap.other if is_front else gap.room
    swings = gap.manner in ("leaf", "double")
    return Opening(
        id=opening_id,
        kind=OpeningKind(gap.kind),
        start=_point(ends[0], 6),
        end=_point(ends[1], 6),
        start_px=_point(to_px(ends)[0], 2),
        end_px=_point(to_px(ends)[1], 2),
        height=gap.height,
        sill=gap.sill,
        leads_to=ids.get(beyond) if beyond else None,
        opens_in=gap.opens_inward == is_front if swings else None,
        hinge=_hinge(gap) if swings else None,
    )


def _hinge(gap: Gap) -> Hinge:
    if gap.manner == "double":
        return Hinge.BOTH
    return Hinge.START if gap.hinge_at_start else Hinge.END


def _point(point: Ring, digits: int) -> Point:
    return round(float(point[0]), digits), round(float(point[1]), digits)
