"""Touch points: the small things of a room that many hands touch, counted by its use."""

from functools import lru_cache

from estimator.measures import SquareMetres
from estimator.plan.room import Basis
from estimator.surfaces.schedule import Lie, Surface, SurfaceKind
from estimator.surfaces.uses import RoomUse


def touch_points(
    use: RoomUse, floor_area: SquareMetres, doors: int, *, treated: bool
) -> tuple[Surface, ...]:
    """Return a row for each kind of touch point; a room has a door even when none was placed."""
    doors = max(1, doors)
    counts = tuple(
        int(point.per_room + point.per_area * floor_area + point.per_door * doors + 0.5)
        for point in use.touch_points
    )
    return _counted(use, counts, treated)


@lru_cache(maxsize=8192)
def _counted(use: RoomUse, counts: tuple[int, ...], treated: bool) -> tuple[Surface, ...]:
    return tuple(
        Surface(
            kind=SurfaceKind.TOUCH_POINT,
            item=point.slug,
            label=point.label,
            count=count,
            lie=Lie.INTRICATE,
            zone=use.zone,
            gross=count * point.area,
            treated=count * point.area if treated else 0.0,
            basis=Basis.ASSUMED,
        )
        for point, count in zip(use.touch_points, counts, strict=True)
        if count
    )
