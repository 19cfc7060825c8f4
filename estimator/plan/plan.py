"""The plan of a site."""

from attrs import frozen

from estimator.errors import PlanError
from estimator.plan.doubt import Doubt
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Storey


@frozen(kw_only=True)
class Plan:
    """All rooms of a site, storey by storey, with every doubt about them.

    Raises
    ------
    PlanError
        When two rooms share an id or a room lies on a storey the plan does not have.
    """

    title: str = ""
    storeys: tuple[Storey, ...] = (Storey(),)
    rooms: tuple[Room, ...] = ()
    doubts: tuple[Doubt, ...] = ()

    def __attrs_post_init__(self) -> None:
        if len({room.id for room in self.rooms}) < len(self.rooms):
            raise PlanError(self.title or "plan", "two rooms share an id", "give each its own")
        numbers = {storey.number for storey in self.storeys}
        if len(numbers) < len(self.storeys):
            raise PlanError(self.title or "plan", "two storeys share a number", "number them apart")
        if homeless := [room for room in self.rooms if room.storey not in numbers]:
            raise PlanError(
                homeless[0].name or homeless[0].id,
                f"there is no storey {homeless[0].storey}",
                "put the room on a storey of the plan",
            )

    def room(self, room_id: str) -> Room:
        """Return the room of that id.

        Raises
        ------
        PlanError
            When the plan has no such room.
        """
        for room in self.rooms:
            if room.id == room_id:
                return room
        raise PlanError(room_id, "the plan has no such room", "choose one of its rooms")

    def storey(self, number: int) -> Storey:
        """Return the storey of that number."""
        return next(storey for storey in self.storeys if storey.number == number)

    @property
    def scale(self) -> Scale | None:
        """The scale of the first storey."""
        return self.storeys[0].scale

    @property
    def is_scaled(self) -> bool:
        """Whether every room has its outline in metres."""
        return all(room.outline is not None for room in self.rooms)
