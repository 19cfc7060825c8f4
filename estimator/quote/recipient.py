"""Whom a quote is for: the client, the site, and the number it is known by."""

from attrs import frozen


@frozen(kw_only=True)
class Recipient:
    """The address of a quote.

    Parameters
    ----------
    address, place
        Lines of the client's address and of the site's.
    number
        What the quote is called between the firm and its client.
    version
        Which version of the quote it is; 0 for a draft that is not kept yet.
    """

    client: str = ""
    address: tuple[str, ...] = ()
    site: str = ""
    place: tuple[str, ...] = ()
    number: str
    version: int = 0
