from decimal import Decimal

from estimator.catalogue.loader import packaged_book
from estimator.estimation.book import Book
from estimator.price.taxes import Tax
from estimator.store.converting import converter
from estimator.workflow.older_books import completed

BOOK = packaged_book()
LATER = (
    "margin",
    "place",
    "places",
    "premiums",
    "term_discounts",
    "rounding_step",
    "rounding_halves",
    "rounding_of",
    "valid_days",
    "deposit",
)


def test_a_book_kept_with_one_tax_charges_it_still():
    usual = converter().unstructure(BOOK, Book)
    rates = {key: value for key, value in usual["rates"].items() if key not in LATER}
    kept = {**usual, "rates": {**rates, "tax": "0.2", "tax_label": "VAT"}}

    book = converter().structure(completed(kept, usual), Book)

    (tax,) = book.rates.tax_place().taxes
    assert tax == Tax(label="VAT", share=Decimal("0.2"))
    assert (book.rates.markup, book.rates.margin) == (BOOK.rates.markup, 0)
    assert book.rates.premiums == ()
    assert book.films == BOOK.films


def test_a_book_kept_today_is_left_as_it_is():
    usual = converter().unstructure(BOOK, Book)
    assert converter().structure(completed(usual, usual), Book) == BOOK
