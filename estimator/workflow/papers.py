"""Papers of quotes that are kept: whom they are addressed to, and how they were sent."""

import json

from attrs import evolve, frozen

from estimator.documents.paper import Paper
from estimator.documents.quote_pdf import quote_pdf
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.recipient import Recipient
from estimator.store.converting import MISREAD, converter, value_of
from estimator.store.store import Store
from estimator.store.values import Key, Status
from estimator.workflow.offers import kept_quote


@frozen(kw_only=True)
class Look:
    """How a paper is written."""

    units: Units
    language: Language
    paper: Paper


@frozen(kw_only=True)
class Sent:
    """To whom a version was sent, and how its paper was written."""

    recipient: Recipient
    look: Look


def recipient_of(store: Store, key: Key) -> Recipient:
    """Return whom a version is addressed to: as it was sent, or as client and site are now.

    Raises
    ------
    NotFound
        When there is no such version.
    """
    sent = how_sent(store, key)
    return sent.recipient if sent else _addressed(store, key)


def draft_for(store: Store, key: Key) -> Recipient:
    """Return whom work that differs from a version of a quote would be addressed to.

    Raises
    ------
    NotFound
        When there is no such quote.
    """
    return evolve(_addressed(store, key), version=0)


def language_of_client(store: Store, key: Key) -> Language | None:
    """Return what papers for a quote's client are written in; None where nobody said.

    Raises
    ------
    NotFound
        When there is no such quote.
    """
    client = store.quotes.listed(key.quote).client
    return store.clients.get(client).language if client else None


def how_sent(store: Store, key: Key) -> Sent | None:
    """Return how a version was sent; None for a draft, and where nobody can tell any more."""
    try:
        return value_of(store.quotes.sent(key), Sent)
    except MISREAD:
        return None


def tell_status(store: Store, key: Key, status: Status, look: Look) -> None:
    """Tell how far a version has come; how it leaves the house is kept with it.

    Raises
    ------
    NotFound
        When there is no such version.
    """
    with store.together():
        sent = Sent(recipient=_addressed(store, key), look=look)
        told = json.dumps(converter().unstructure(sent), allow_nan=False)
        store.quotes.set_status(key, status, told)


def kept_paper(store: Store, key: Key, look: Look) -> bytes:
    """Return the PDF of a version; one that was sent is the same, byte for byte, as when it was.

    Parameters
    ----------
    look
        How it is written where it was not sent yet.

    Raises
    ------
    DocumentError
        When it comes to another price by the rules of today.
    StoreError
        When it cannot be read any more.
    """
    work, quote = kept_quote(store, key)
    sent = how_sent(store, key) or Sent(recipient=_addressed(store, key), look=look)
    return quote_pdf(
        work.plan,
        quote,
        sent.look.units,
        firm=work.book.firm,
        language=sent.look.language,
        paper=sent.look.paper,
        recipient=sent.recipient,
    )


def _addressed(store: Store, key: Key) -> Recipient:
    row = store.quotes.listed(key.quote)
    site = store.sites.get(row.site)
    client = store.clients.get(row.client) if row.client else None
    return Recipient(
        client=client.name if client else "",
        address=_lines(client.address) if client else (),
        site=site.name,
        place=_lines(site.address),
        number=key.called,
        version=key.number,
    )


def _lines(text: str) -> tuple[str, ...]:
    return tuple(line for line in map(str.strip, text.splitlines()) if line)
