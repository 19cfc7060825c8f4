"""What the store hands out and takes in, as values."""

from enum import StrEnum

from attrs import frozen

from estimator.measures import SquareMetres
from estimator.price.money import Money
from estimator.quantities.language import Language
from estimator.quote.outcome import Outcome


class Status(StrEnum):
    """How far a version of a quote has come; a new version is a draft."""

    DRAFT = "draft"
    SENT = "sent"
    ACCEPTED = "accepted"
    DECLINED = "declined"
    LOST = "lost"


@frozen(kw_only=True)
class Client:
    """Who pays.

    Parameters
    ----------
    id
        Given by the store; empty for a new client.
    contact
        People, telephone, mail.
    address
        As it stands on letters, line by line.
    language
        What papers for them are written in; None where nobody said.
    version
        Which text of the client this is; 0 for one that was never saved.
    """

    id: str = ""
    name: str
    contact: str = ""
    address: str = ""
    language: Language | None = None
    note: str = ""
    version: int = 0


@frozen(kw_only=True)
class Site:
    """A place to be treated.

    Parameters
    ----------
    client
        Id of the client; empty for a site of nobody's.
    """

    id: str = ""
    client: str = ""
    name: str
    address: str = ""
    note: str = ""
    version: int = 0


CALLED_BY = 8
"""So many first letters and digits of its id are what a quote is called by."""


@frozen(kw_only=True)
class Key:
    """Names one version of one quote."""

    quote: str
    number: int

    @property
    def called(self) -> str:
        """What firm and client call the quote; a search for it finds the quote."""
        return self.quote[:CALLED_BY].upper()


@frozen(kw_only=True)
class Listed:
    """A quote in a list, as its latest version stands.

    Parameters
    ----------
    versions
        How many there are.
    client_name
        Empty for a site of nobody's.
    saved_at
        Seconds since 1970.
    """

    key: Key
    versions: int
    title: str
    site: str
    site_name: str
    client: str
    client_name: str
    date: str
    status: Status
    total: Money
    treated: SquareMetres
    floor_area: SquareMetres
    saved_at: float

    @property
    def quote(self) -> str:
        """Id of the quote."""
        return self.key.quote

    @property
    def number(self) -> int:
        """Number of its latest version."""
        return self.key.number


class Order(StrEnum):
    """What a list of quotes is sorted by."""

    DATE = "date"
    TITLE = "title"
    TOTAL = "total"
    TREATED = "treated"
    FLOOR_AREA = "floor_area"


@frozen(kw_only=True)
class Search:
    """Which quotes to list, and which part of the list.

    Parameters
    ----------
    words
        Each must occur in the title, the site, its address, the client or the number, in any case
        and with or without accents.
    client, site
        Ids; empty for all.
    statuses
        Empty for all.
    rising
        Whether the smallest or oldest come first.
    """

    words: str = ""
    client: str = ""
    site: str = ""
    statuses: tuple[Status, ...] = ()
    by: Order = Order.DATE
    rising: bool = False
    first: int = 0
    most: int = 50


@frozen(kw_only=True)
class Found:
    """The part of a list that was asked for, and how long the whole list is."""

    rows: tuple[Listed, ...]
    count: int


@frozen(kw_only=True)
class Version:
    """One version of a quote.

    Parameters
    ----------
    after
        Number of the version it was made from; 0 for the first.
    """

    key: Key
    after: int = 0
    title: str
    date: str
    status: Status = Status.DRAFT
    total: Money
    treated: SquareMetres
    floor_area: SquareMetres
    note: str = ""
    saved_at: float = 0.0


@frozen(kw_only=True)
class KeptOutcome:
    """What a visit really took, beside the version of the quote that it was planned by.

    Parameters
    ----------
    id
        Given by the store; empty for a new one.
    """

    id: str = ""
    key: Key
    outcome: Outcome
    version: int = 0
    saved_at: float = 0.0


@frozen(kw_only=True)
class JobHead:
    """A job in a list.

    Parameters
    ----------
    revision
        How often it was saved.
    kept_as
        The version of a quote that it was last kept as, or opened from.
    """

    id: str
    title: str
    rooms: int
    revision: int
    saved_at: float
    kept_as: Key | None = None
