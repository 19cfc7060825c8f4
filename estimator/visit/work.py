"""What a crew needs to know about a room before a timetable can be made."""

from attrs import field, frozen

from estimator.measures import CubicMetres, Seconds, SquareMetres, checked


@frozen(kw_only=True, field_transformer=checked)
class RoomWork:
    """The work in one room.

    Parameters
    ----------
    use
        Slug of the room use, which decides the pace.
    sprayed
        Surface area sprayed once; ``passes`` says how often.
    volume
        Liquid sprayed in all passes.
    strength
        Slug of the mix it takes, so that a change of strength means a change of tank.
    wiped
        Area wiped after the contact time.
    leads_to
        Ids of the rooms its doors lead to.
    """

    room: str
    name: str
    use: str
    storey: int
    floor_area: SquareMetres
    air: CubicMetres
    sprayed: SquareMetres
    passes: int
    volume: CubicMetres
    strength: str
    contact_time: Seconds
    wiped: SquareMetres
    leads_to: tuple[str, ...] = field(default=(), converter=tuple)
