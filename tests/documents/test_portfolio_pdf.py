from decimal import Decimal

import pypdfium2
import pytest
from attrs import evolve

from estimator.documents.paper import Paper
from estimator.documents.portfolio_pdf import Site, portfolio_pdf
from estimator.documents.reader import Reader
from estimator.errors import DocumentError
from estimator.price.build_up import Price
from estimator.price.money import Money
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.firm import Firm
from estimator.quote.recipient import Recipient

FIRM = Firm(name="Oak Street Cleaning")


def _pages(pdf):
    document = pypdfium2.PdfDocument(pdf)
    try:
        texts = [page.get_textpage() for page in document]
        return [" ".join(text.get_text_range().split()) for text in texts]
    finally:
        document.close()


def _spaced(words):
    return " ".join(words.split())


def _in_euros(quote):
    lines = quote.price.costs + quote.price.additions
    costs = tuple(evolve(one, amount=Money(one.amount.amount, "EUR")) for one in lines)
    return evolve(quote, price=Price(costs=costs, additions=(), taxes=()))


@pytest.mark.parametrize("language", list(Language))
def test_the_cover_sums_what_the_quotes_behind_it_say(plan, quote, language):
    sites = [Site(plan=plan, quote=evolve(quote, title=f"Larkfield site {at}")) for at in range(3)]
    pages = _pages(
        portfolio_pdf(
            sites,
            Units.METRIC,
            firm=FIRM,
            language=language,
            paper=Paper.LETTER,
            title="Town of Larkfield",
        )
    )
    reader = Reader(language=language)

    assert len(pages) == 7
    for words in (
        "Oak Street Cleaning",
        "Town of Larkfield",
        "Larkfield site 2",
        reader.money(quote.price.total),
        reader.money(Money(3 * quote.price.total.amount, "USD")),
        reader.area(3 * quote.schedule.treated),
        reader.volume(3 * quote.solution.volume),
    ):
        assert _spaced(words) in pages[0], words
    assert "Larkfield site 1" in pages[3]


def test_currencies_are_never_mixed_in_a_sum(plan, quote):
    euros = _in_euros(quote)
    cover = _pages(
        portfolio_pdf([Site(plan=plan, quote=quote), Site(plan=plan, quote=euros)], Units.METRIC)
    )[0]

    assert "€197.19 + $210.99" in cover
    assert str(Decimal("197.19") + Decimal("210.99")) not in cover


@pytest.mark.parametrize("count", [0, 201])
def test_no_site_or_too_many_are_refused_in_a_sentence(plan, quote, count):
    with pytest.raises(DocumentError, match=f"it has {count} sites"):
        portfolio_pdf([Site(plan=plan, quote=quote)] * count, Units.METRIC)


def test_the_same_sites_give_the_same_bytes(plan, quote):
    sites = [Site(plan=plan, quote=quote)] * 2

    assert portfolio_pdf(sites, Units.US) == portfolio_pdf(sites, Units.US)


def test_the_number_and_the_client_of_each_quote_are_told(plan, quote):
    recipient = Recipient(client="Larkfield Trust", site="Clinic", number="3F9A21BC", version=2)
    pages = _pages(portfolio_pdf([Site(plan=plan, quote=quote, recipient=recipient)], Units.METRIC))

    assert "Clinic: Larkfield Health Clinic · Quote 3F9A21BC, version 2" in pages[0]
    assert "Larkfield Trust" in pages[1]
