"""Margin, taxes and rounding against worked examples of public guidance."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import NoSuchEntry, PriceError
from estimator.price.build_up import LineKind, Work, price
from estimator.price.charging import charging
from estimator.price.conditions import Conditions
from estimator.price.hours import Hours, Premium
from estimator.price.recurrence import TermDiscount
from estimator.price.rounding import Halves, Rounded
from estimator.price.taxes import Tax

TOLD = {"source": "invented", "as_of": "2026"}
GST = Tax(label="GST", share=Decimal("0.05"))


def told(lines):
    return [str(line.amount.amount) for line in lines]


def test_a_margin_is_a_share_of_the_price_not_of_the_cost(visit):
    # York University, ADMS 2200, pricing worksheet: a cost of 15 and a margin of 25 % are a price
    # of 20.
    offer = visit("15.00", margin=Decimal("0.25"))
    assert offer.charge.amount == 20
    assert offer.margin == Decimal("0.25")
    assert offer.additions[0].label == "Margin, 25 % of the charge"


@pytest.mark.parametrize(
    ("cost", "basis", "share", "charged", "margin"),
    [
        # Published margin and mark-up table: 500 at a margin of 30 % is 714.29, and with a mark-up
        # of 20 % it is 600, of which 16.67 % are left.
        ("500", "margin", "0.30", "714.29", "0.3000"),
        ("500", "markup", "0.20", "600.00", "0.1667"),
        # Encyclopedia article on mark-up: 1.40 sold for 1.99 is a mark-up of 42 %, a margin of
        # 29.6 %.
        ("1.40", "markup", "0.42", "1.99", "0.2965"),
    ],
)
def test_mark_up_and_margin_come_to_published_prices(visit, cost, basis, share, charged, margin):
    offer = visit(cost, **{basis: Decimal(share)})
    assert offer.charge.amount == Decimal(charged)
    assert round(offer.margin, 4) == Decimal(margin)


@given(st.decimals("0.01", "0.95", places=2), st.decimals(1, 10**6, places=2))
def test_a_margin_asked_for_is_the_margin_got(plain_rates, share, cost):
    rates = plain_rates(str(cost), margin=share)
    offer = price(Work(crew=1, person_time=0.0, on_site=0.0, product="p"), rates)
    coin_of_the_charge = Decimal("0.01") / offer.charge.amount
    assert abs(offer.margin - share) <= coin_of_the_charge


@pytest.mark.parametrize("share", ["1", "1.5"])
def test_a_margin_of_all_or_more_is_refused(visit, share):
    with pytest.raises(PriceError, match=r"margin: 1[05]0% of the charge would leave nothing of"):
        visit("100", margin=Decimal(share))


def test_a_mark_up_and_a_margin_at_once_are_refused(visit):
    with pytest.raises(PriceError, match="mark-up and margin: both are given"):
        visit("100", margin=Decimal("0.2"), markup=Decimal("0.25"))


def test_taxes_beside_each_other(visit):
    # Revenu Québec, "Calculating the taxes", since 2013: 100.00, GST 5.00, QST 9.98, 114.98.
    offer = visit("100", GST, Tax(label="QST", share=Decimal("0.09975")))
    assert told(offer.taxes) == ["5.00", "9.98"]
    assert offer.total.amount == Decimal("114.98")


def test_a_tax_on_a_tax(visit):
    # Revenu Québec, news release of 17 December 2012, before 2013: (100 + 5) × 9.5 % is 9.98.
    offer = visit("100", GST, Tax(label="QST", share=Decimal("0.095"), on_taxes=True))
    assert told(offer.taxes) == ["5.00", "9.98"]
    assert offer.taxes[1].quantity == 105
    assert offer.total.amount == Decimal("114.98")


@pytest.mark.parametrize(
    ("charge", "share", "tax"),
    [
        # Rounding rule of the Streamlined Sales and Use Tax Agreement (General Laws of Rhode
        # Island, 44-18.1-25): up whenever the third decimal is greater than four.
        ("10.07", "0.05", "0.50"),  # 0.5035
        ("10.09", "0.05", "0.50"),  # 0.5045: the third decimal is 4
        ("10.10", "0.05", "0.51"),  # 0.505
    ],
)
def test_a_tax_is_rounded_up_where_its_third_decimal_is_above_four(visit, charge, share, tax):
    assert told(visit(charge, Tax(label="Tax", share=Decimal(share))).taxes) == [tax]


def test_a_total_paid_in_cash_is_rounded_after_tax(visit):
    # Government of Canada, Budget 2012, "Rounding": 1.83 and 2.86 are 4.92 after 5 % GST, 4.90
    # paid in cash; the tax stays what it was.
    offer = visit("4.69", GST, rounding_step=Decimal("0.05"))
    assert told(offer.taxes) == ["0.23"]
    assert told(offer.rounding) == ["-0.02"]
    assert offer.total.amount == Decimal("4.90")
    assert offer.rounding[0].label == "Rounding to 0.05"


def test_a_charge_is_rounded_before_tax_where_the_book_says_so(visit):
    offer = visit("99.60", GST, rounding_step=Decimal(1), rounding_of=Rounded.CHARGE)
    assert told(offer.additions) == ["0.40"]
    assert offer.charge.amount == 100
    assert offer.total.amount == 105
    assert offer.rounding == ()


@pytest.mark.parametrize(("halves", "charge"), [(Halves.UP, 103), (Halves.EVEN, 102)])
def test_a_half_goes_where_the_book_says(visit, halves, charge):
    rule = {"rounding_of": Rounded.CHARGE, "rounding_halves": halves}
    assert visit("102.50", rounding_step=Decimal(1), **rule).charge.amount == charge


def test_a_step_that_no_coins_make_is_refused(visit):
    with pytest.raises(PriceError, match=r"rounding step: 0\.025 is no whole number of coins"):
        visit("1", rounding_step=Decimal("0.025"))
    assert visit("1.5", currency="JPY", rounding_step=Decimal(10)).total.amount == 0


def test_evening_night_and_weekend_add_their_share_to_all_labour(plain_rates):
    premiums = tuple(
        Premium(hours=hours, share=Decimal(share), **TOLD)
        for hours, share in ((Hours.EVENING, "0.25"), (Hours.NIGHT, "0.5"))
    )
    rates = plain_rates("0", labour_per_hour=Decimal(20), premiums=premiums)
    work = Work(crew=2, person_time=7200.0, on_site=3600.0, product="p", road_time=1800.0)
    costs = {}
    for hours in (Hours.DAY, Hours.EVENING, Hours.NIGHT):
        offer = price(work, rates, Conditions(hours=hours))
        costs[hours] = offer.cost.amount
        labels = [line.label for line in offer.costs if line.kind is LineKind.PREMIUM]
        assert labels == ([] if hours is Hours.DAY else [f"{hours.capitalize()} premium on labour"])
    # 2 h on site and 1 h on the road at 20: 60, a quarter more, half more.
    assert costs == {Hours.DAY: 60, Hours.EVENING: 75, Hours.NIGHT: 90}
    with pytest.raises(NoSuchEntry, match=r"weekend premium: .* add a row \[premiums.weekend\]"):
        price(work, rates, Conditions(hours=Hours.WEEKEND))


def test_a_longer_term_takes_off_what_the_longest_row_it_reaches_says(visit):
    rows = tuple(
        TermDiscount(slug=f"t{visits}", visits=visits, discount=Decimal(share), **TOLD)
        for visits, share in ((12, "0.10"), (4, "0.05"))
    )
    charges = {
        visits: visit(
            "200", term_discounts=rows, conditions=Conditions(visits=visits)
        ).charge.amount
        for visits in (1, 3, 4, 11, 12, 52)
    }
    assert charges == {1: 200, 3: 200, 4: 190, 11: 190, 12: 180, 52: 180}


def test_a_place_that_the_book_does_not_know_is_refused_with_those_it_knows(visit):
    with pytest.raises(NoSuchEntry, match=r"moon: .*which taxes are charged there; .*\(here\)"):
        visit("1", conditions=Conditions(place="moon"))


def test_a_charge_below_cost_is_told_to_the_firm(visit):
    assert visit("100", markup=Decimal("0.1")).findings == ()
    below_all = visit(
        "100", overhead=Decimal("0.2"), conditions=Conditions(discount=Decimal("0.1"))
    )
    assert below_all.findings == (
        "The charge of CAD 108.00 is CAD 12.00 below what it costs with overhead (CAD 120.00): "
        "every visit loses money.",
    )
    below = visit("100", conditions=Conditions(discount=Decimal("0.25")))
    assert "CAD 25.00 below what the work costs (CAD 100.00)" in below.findings[0]
    assert below.margin < 0


SHARES = st.decimals(0, "0.9", places=3)


@given(st.decimals(0, 10**6, places=2), SHARES, SHARES, st.lists(SHARES, max_size=3), st.booleans())
def test_the_rule_in_one_multiplication_meets_the_lines(
    plain_rates, cost, overhead, margin, taxes, on_taxes
):
    rates = plain_rates(
        str(cost),
        *(Tax(label="t", share=share, on_taxes=on_taxes) for share in taxes),
        overhead=overhead,
        margin=margin,
    )
    rule = charging(rates, Conditions())
    exact = cost * (1 + overhead) / (1 - margin) * rule.taxed
    offer = price(Work(crew=1, person_time=0.0, on_site=0.0, product="p"), rates)
    # Each line is off by half a cent at most; that of the overhead grows with margin and taxes.
    assert abs(offer.total.amount - exact) <= Decimal("0.005") * (10 + 1 + 4) * rule.taxed
    assert sum(line.amount.amount for line in offer.lines) == offer.total.amount
