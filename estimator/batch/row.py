"""What became of one input, as a row."""

from enum import StrEnum

from attrs import frozen

from estimator.measures import CubicMetres, Seconds, SquareMetres, checked
from estimator.price.money import Money


class Status(StrEnum):
    """What became of an input.

    A plan that could be ``read`` but not priced has its rooms in the row. An input that was
    ``lost`` took the process down that worked on it, or was not done in time; it is tried again.
    """

    QUOTED = "quoted"
    READ = "read"
    FAILED = "failed"
    LOST = "lost"


@frozen(kw_only=True, field_transformer=checked)
class Row:
    """One input of a batch.

    Parameters
    ----------
    file
        Its name within the folder.
    says
        One sentence on why there is no price; empty where there is one.
    low, high
        Totals that the price stays below with a chance of 10 and 90 %.
    doubts
        How many things were assumed or read weakly.
    look_first
        What to look at first, as one sentence.
    digest
        Digest of its content; empty where it could not be opened.
    basis
        Digest of the book and the job it is priced with.
    """

    file: str
    status: Status
    says: str = ""
    title: str = ""
    storeys: int | None = None
    rooms: int | None = None
    floor: SquareMetres | None = None
    treated: SquareMetres | None = None
    volume: CubicMetres | None = None
    on_site: Seconds | None = None
    price: Money | None = None
    low: Money | None = None
    high: Money | None = None
    doubts: int | None = None
    look_first: str = ""
    digest: str = ""
    basis: str = ""
    version: str = ""
