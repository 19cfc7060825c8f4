"""Several sites in one document: a cover with their totals, and the quote of each behind it."""

from collections.abc import Iterator, Sequence

from attrs import frozen
from reportlab.platypus import Flowable, PageBreak, Spacer

from estimator.documents.offered_price import payable
from estimator.documents.palette import MUTED
from estimator.documents.paper import Paper, usual_paper
from estimator.documents.quote_pdf import quote_parts
from estimator.documents.reader import Reader
from estimator.documents.stationery import Stationery
from estimator.errors import DocumentError
from estimator.plan.plan import Plan
from estimator.price.money import Money
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.firm import Firm
from estimator.quote.quote import Quote
from estimator.quote.recipient import Recipient

MOST_SITES = 200


@frozen(kw_only=True, eq=False)
class Site:
    """A plan with its quote, and whom that is addressed to."""

    plan: Plan
    quote: Quote
    recipient: Recipient | None = None


def portfolio_pdf(
    sites: Sequence[Site],
    units: Units,
    *,
    firm: Firm | None = None,
    language: Language = Language.EN,
    paper: Paper | None = None,
    title: str = "",
) -> bytes:
    """Return one document of several quotes; the same inputs give the same bytes.

    Quotes in different currencies are summed each in its own.

    Parameters
    ----------
    title
        Whose sites they are, such as the name of a chain.

    Raises
    ------
    DocumentError
        When there are no sites, or more than a document holds.
    """
    if not 1 <= len(sites) <= MOST_SITES:
        raise DocumentError(
            title or "portfolio", f"it has {len(sites)} sites", f"choose from 1 to {MOST_SITES}"
        )
    sheet = Stationery(
        firm=firm or Firm(),
        paper=paper or usual_paper(units),
        reader=Reader(language=language, units=units),
    )
    parts: list[Flowable] = list(_cover(sheet, sites, title))
    for site in sites:
        parts += [PageBreak(), *quote_parts(sheet, site.plan, site.quote, site.recipient)]
    day = max(site.quote.date for site in sites)
    made, _ = sheet.printed(
        parts,
        title=title or _say(sheet, "title", count=len(sites)),
        foot=sheet.say("of", day=sheet.reader.day(day)),
    )
    return made


def _say(sheet: Stationery, key: str, **values: object) -> str:
    return sheet.reader.say("portfolio", key, **values)


def _cover(sheet: Stationery, sites: Sequence[Site], title: str) -> Iterator[Flowable]:
    reader, wide = sheet.reader, sheet.wide
    count = _say(sheet, "title", count=reader.number(len(sites)))
    yield from sheet.letterhead()
    yield sheet.text(_say(sheet, "kicker"), 8.5, bold=True, colour=sheet.firm.accent)
    yield sheet.text(title or count, 18, bold=True)
    yield sheet.text(sheet.say("trade"), 8.5, colour=MUTED, spaceAfter=9)
    quotes = [site.quote for site in sites]
    totals = _by_currency(quotes)
    treated = reader.area(sum(quote.schedule.treated for quote in quotes))
    volume = reader.volume(sum(quote.solution.volume for quote in quotes))
    yield sheet.figures(
        (
            (" + ".join(map(reader.money, totals)), sheet.say("total")),
            (treated, sheet.say("surface")),
            (volume, sheet.say("solution")),
            (reader.number(len(sites)), _say(sheet, "sites")),
        )
    )
    yield sheet.text(_say(sheet, "lead"), 8.6, spaceAfter=8)
    rows = [
        (
            " · ".join(filter(None, (_named(sheet, site), sheet.numbered(site.recipient)))),
            reader.day(quote.date),
            reader.area(quote.schedule.floor_area),
            reader.area(quote.schedule.treated),
            reader.number(quote.terms.visits),
            payable(quote.price, quote.range, quote.terms, reader),
        )
        for site, quote in zip(sites, quotes, strict=True)
    ]
    floor = reader.area(sum(quote.schedule.floor_area for quote in quotes))
    sums = "\n".join(map(reader.money, totals))
    rows.append((_say(sheet, "together"), "", floor, treated, "", sums))
    keys = ("site", "date", "floor", "treated", "visits", "total")
    yield sheet.table(
        tuple(_say(sheet, key) for key in keys),
        rows,
        [share * wide for share in (0.33, 0.15, 0.11, 0.11, 0.1, 0.2)],
        numbers=(2, 3, 4, 5),
        size=8.0,
        strong_last=True,
    )
    yield Spacer(1, 8)


def _named(sheet: Stationery, site: Site) -> str:
    """Return what a site is called, with the title of its quote where that says more."""
    known = site.recipient.site if site.recipient else ""
    title = site.quote.title
    if known and title and known != title:
        return f"{known}: {title}"
    return known or title or sheet.say("untitled")


def _by_currency(quotes: Sequence[Quote]) -> list[Money]:
    """Return what a visit to every site comes to, a sum for each currency."""
    sums: dict[str, Money] = {}
    for quote in quotes:
        total = quote.price.total
        before = sums.get(total.currency)
        sums[total.currency] = before + total if before else total
    return [sums[currency] for currency in sorted(sums)]
