import pytest
from attrs import evolve

from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey


def typed_pair():
    """Two rooms side by side, a wall of 0.1 m between them, and a door through it."""
    door = Opening(id="d", kind=OpeningKind.DOOR, start=(3.0, 1.0), end=(3.0, 1.9), leads_to="b")
    back = Opening(id="e", kind=OpeningKind.DOOR, start=(3.1, 1.9), end=(3.1, 1.0), leads_to="a")
    return Plan(
        rooms=(
            Room(id="a", name="Hall", outline=rectangle(3, 4), openings=(door,)),
            Room(id="b", name="Office", outline=rectangle(2, 4, left=3.1), openings=(back,)),
        )
    )


def pictured_pair(metres_per_px=0.01):
    """The same two rooms on a picture; without a scale where that is None."""
    scale = metres_per_px and Scale(metres_per_px=metres_per_px, relative_error=0.0, basis="a wall")
    source = Source(file="a.png", width_px=600, height_px=500)

    def pictured(room):
        left, top, right, bottom = (100 * part for part in room.outline.bounds)
        openings = tuple(
            evolve(
                one,
                start=one.start if scale else None,
                end=one.end if scale else None,
                start_px=tuple(100 * part for part in one.start),
                end_px=tuple(100 * part for part in one.end),
            )
            for one in room.openings
        )
        return evolve(
            room,
            outline=room.outline if scale else None,
            outline_px=rectangle(right - left, bottom - top, left=left, top=top),
            openings=openings,
            confidence=0.6,
        )

    rooms = tuple(pictured(room) for room in typed_pair().rooms)
    return Plan(storeys=(Storey(source=source, scale=scale or None),), rooms=rooms)


@pytest.fixture
def typed():
    return typed_pair()


@pytest.fixture
def pictured():
    return pictured_pair()


@pytest.fixture
def unscaled():
    return pictured_pair(None)
