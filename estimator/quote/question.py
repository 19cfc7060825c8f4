"""Questions whose answers would narrow the price."""

from enum import StrEnum

from attrs import frozen

from estimator.plan.opening import OpeningKind
from estimator.price.money import Money


class Matter(StrEnum):
    """What a question asks for."""

    SCALE = "scale"
    HEIGHT = "ceiling height"
    SIZE = "size"
    OUTLINE = "outline"
    ROOM = "room"
    USE = "use"
    CONTENTS = "contents"
    OPENINGS = "height of openings"
    FILM = "film"
    PACE = "pace"


OF_THE_SITE = frozenset(Matter) - {Matter.FILM, Matter.PACE}
"""What a client can tell; the rest only the firm knows."""


@frozen(kw_only=True)
class Question:
    """One thing that could be asked, and what knowing it is worth.

    Parameters
    ----------
    says
        What is asked for, in a few words: "Ceiling height of Hall".
    narrows
        Half of what the span from P10 to P90 loses when it is answered, so that "± narrows" is
        gained.
    rooms
        Ids of the rooms it is about; empty when it is about all of them.
    storey
        The storey whose picture it is about; None when it is about no picture.
    opening
        The kind of openings it is about; None when it is about none.
    """

    matter: Matter
    says: str
    narrows: Money
    rooms: tuple[str, ...] = ()
    storey: int | None = None
    opening: OpeningKind | None = None
