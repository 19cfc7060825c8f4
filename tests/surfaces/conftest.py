from collections.abc import Callable

import pytest

from estimator.catalogue.loader import packaged_book
from estimator.plan.geometry import rectangle
from estimator.plan.room import Room
from estimator.surfaces.book import SurfaceBook
from estimator.surfaces.measure import measure_room
from estimator.surfaces.schedule import RoomSchedule, Surface, SurfaceKind
from estimator.surfaces.scope import Scope

EVERYTHING = Scope(ceilings=True, glass=True, undersides=True)


@pytest.fixture(scope="session")
def book() -> SurfaceBook:
    return packaged_book().surfaces


@pytest.fixture
def measured(book) -> Callable[..., RoomSchedule]:
    """Measure a room of 4 by 3 by 2.5 m, empty unless the test says otherwise."""

    def measured(*, scope: Scope = EVERYTHING, **changes) -> RoomSchedule:
        facts = {
            "id": "a",
            "name": "A",
            "outline": rectangle(4, 3),
            "ceiling_height": 2.5,
            "empty": True,
        }
        return measure_room(Room(**(facts | changes)), book, scope)

    return measured


@pytest.fixture
def row() -> Callable[[RoomSchedule, SurfaceKind], Surface]:
    """Return the only row of a kind."""

    def row(room: RoomSchedule, kind: SurfaceKind) -> Surface:
        (found,) = [surface for surface in room.surfaces if surface.kind is kind]
        return found

    return row
