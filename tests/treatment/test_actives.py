import pytest
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.errors import QuantityError
from estimator.treatment.actives import purest

BOOK = packaged_book()


# Formula masses from the conventional atomic masses of IUPAC; the tests of dilution add them up.
@pytest.mark.parametrize(
    ("active", "percent"),
    [
        ("Sodium dichloroisocyanurate", 64.48),
        ("NaDCC dihydrate", 55.40),
        ("troclosene sodium", 64.48),
        ("Trichloroisocyanuric acid (TCCA)", 91.53),
        ("calcium hypochlorite", 99.18),
    ],
)
def test_pure_actives_release_what_their_formula_says(active, percent):
    assert round(100 * purest(active), 2) == pytest.approx(percent, abs=0.011)


def test_an_active_nobody_knows_has_no_limit():
    assert purest("hypochlorous acid") is None


def test_a_powder_stronger_than_its_pure_active_is_refused():
    powder = BOOK.product("powder_60")

    with pytest.raises(QuantityError, match=r"releases 64\.5%, not 90\.0%; copy the figure again"):
        evolve(powder, available_share=0.9)
    assert evolve(powder, available_share=0.645).available_share == 0.645


@pytest.mark.parametrize("product", BOOK.products, ids=lambda one: one.slug)
def test_no_product_of_the_book_is_stronger_than_can_be(product):
    most = purest(product.active)

    assert not product.available_share or product.available_share <= most
