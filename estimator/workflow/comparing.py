"""Quotes that were kept, side by side."""

from collections.abc import Iterable, Sequence

from attrs import frozen

from estimator.documents.paper import Paper
from estimator.documents.portfolio_pdf import Site as PortfolioSite
from estimator.documents.portfolio_pdf import portfolio_pdf
from estimator.estimation.figures import Figures
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.firm import Firm
from estimator.store.store import Store
from estimator.store.values import Key, Listed, Search
from estimator.workflow.offers import figures_kept, kept_quote
from estimator.workflow.papers import recipient_of

MOST_COMPARED = 200
"""So many quotes are compared at once."""

_MOST_OF_A_SITE = 50


@frozen(kw_only=True)
class Compared:
    """One version of a quote beside others.

    Parameters
    ----------
    name
        What tells it from the others on the screen.
    """

    key: Key
    name: str
    site: str
    site_name: str
    figures: Figures


def compared(store: Store, quotes: Sequence[Listed]) -> tuple[Compared, ...]:
    """Return the figures of quotes as they stand; one that cannot be read any more is left out."""
    figures = figures_kept(store, [one.key for one in quotes])
    return tuple(
        Compared(
            key=one.key,
            name=quote_name(one),
            site=one.site,
            site_name=one.site_name,
            figures=figures[one.key],
        )
        for one in quotes
        if one.key in figures
    )


def over_time(store: Store, site: str) -> tuple[Compared, ...]:
    """Return every version of every quote of a site, the oldest first."""
    quotes = store.quotes.find(Search(site=site, most=_MOST_OF_A_SITE)).rows
    versions = sorted(
        (version for one in quotes for version in store.quotes.versions(one.quote)),
        key=lambda version: (version.date, version.saved_at),
    )
    figures = figures_kept(store, [version.key for version in versions])
    names = {one.quote: one for one in quotes}
    several = len(quotes) > 1
    return tuple(
        Compared(
            key=one.key,
            name=f"{one.date}, {f'{one.title}, ' if several else ''}version {one.key.number}",
            site=site,
            site_name=names[one.key.quote].site_name,
            figures=figures[one.key],
        )
        for one in versions
        if one.key in figures
    )


def quote_name(quote: Listed) -> str:
    """Return what a quote is called beside others: its site, and its title where that says more."""
    site, title = quote.site_name.strip(), quote.title.strip()
    return title if not site or site == title else f"{site}: {title}" if title else site


def sites_of(quotes: Iterable[Compared]) -> dict[str, str]:
    """Return the names of the sites of quotes, by their ids."""
    return {one.site: one.site_name for one in quotes}


def one_document(
    store: Store,
    quotes: Sequence[Compared],
    units: Units,
    *,
    firm: Firm,
    language: Language,
    paper: Paper,
    title: str,
) -> bytes:
    """Return one PDF of several quotes, with what they come to together.

    Raises
    ------
    DocumentError
        When a quote comes to another price by the rules of today, or there are too many.
    StoreError
        When a quote cannot be read any more.
    """
    sites = [_site(store, one.key) for one in quotes]
    return portfolio_pdf(sites, units, firm=firm, language=language, paper=paper, title=title)


def _site(store: Store, key: Key) -> PortfolioSite:
    work, quote = kept_quote(store, key)
    return PortfolioSite(plan=work.plan, quote=quote, recipient=recipient_of(store, key))
