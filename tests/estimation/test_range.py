"""The range against closed forms of error propagation (textbook first-order formulas)."""

from decimal import Decimal

import numpy as np
import pytest
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.estimation.range import Growth, Part, parts, price_range, total_draws
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Storey
from estimator.price.build_up import Work, price
from estimator.price.conditions import Conditions
from estimator.price.hours import Hours
from estimator.price.rounding import Rounded
from estimator.price.taxes import Tax, TaxPlace
from estimator.surfaces.measure import measure
from estimator.surfaces.scope import Scope

BOOK = packaged_book()
BOOK = evolve(
    BOOK,
    spread=evolve(BOOK.spread, film=0.0, pace=0.0),
    site_times=evolve(BOOK.site_times, arrive=0.0, leave=0.0),
    rates=evolve(
        BOOK.rates,
        **dict.fromkeys(("wear_per_person", "minimum_charge", "travel_per_km"), Decimal(0)),
    ),
)
# All of its cost grows with the treated area, so the total errs just as the area does.
WORK = Work(
    crew=1, person_time=36_000.0, on_site=36_000.0, product=BOOK.products[0].slug, tablets=100
)
DAY = Conditions()
PRICE = price(WORK, BOOK.rates)


def part(**changes):
    usual = {"storey": 0, "growth": Growth.NOT, "share": 1.0, "error": 0.0, "scale_error": 0.0}
    return Part(**(usual | changes))


def relative_deviation(*job_parts):
    totals = total_draws(WORK, DAY, job_parts, BOOK, seed=7)
    return np.std(totals) / np.mean(totals)


@pytest.mark.parametrize(("growth", "power"), [(Growth.WITH_LENGTH, 1), (Growth.WITH_AREA, 2)])
def test_an_error_of_scale_enters_lengths_once_and_areas_twice(growth, power):
    found = relative_deviation(part(growth=growth, scale_error=0.03))
    assert found == pytest.approx(power * 0.03, rel=0.05)


def test_independent_errors_add_in_quadrature():
    halves = (part(share=0.5, error=0.06), part(share=0.5, error=0.08, growth=Growth.WITH_AREA))
    assert relative_deviation(*halves) == pytest.approx((0.03**2 + 0.04**2) ** 0.5, rel=0.05)


def test_a_shared_scale_does_not_average_out_but_two_storeys_do():
    same = [part(growth=Growth.WITH_LENGTH, share=0.5, scale_error=0.04) for _ in range(2)]
    other = [evolve(one, storey=at) for at, one in enumerate(same)]
    assert relative_deviation(*same) == pytest.approx(0.04, rel=0.05)
    assert relative_deviation(*other) == pytest.approx(0.04 / 2**0.5, rel=0.05)


def test_errors_of_many_rooms_average_out_as_the_root_of_their_number():
    rooms = tuple(
        Room(id=str(at), name="", use="storage", outline=rectangle(3, 3, left=4 * at), empty=True)
        for at in range(16)
    )
    doubts = tuple(
        Doubt(aspect=Aspect.OUTLINE, room=room.id, says="x", confidence=1, relative_error=0.2)
        for room in rooms
    )
    scope = Scope(walls=False, doors=False, touch_points=False)
    plan = Plan(rooms=rooms)
    found = parts(plan, measure(plan, BOOK.surfaces, scope), doubts, BOOK)
    assert [one.growth for one in found] == [Growth.WITH_AREA]
    assert found[0].error == pytest.approx(0.2 / 16**0.5)


def test_without_doubt_there_is_no_range_and_it_meets_the_price():
    found = price_range(WORK, DAY, (part(),), BOOK, seed=1)
    assert found.p10 == found.p50 == found.p90
    # The price rounds each of its lines to a cent.
    assert float(found.p50.amount) == pytest.approx(float(PRICE.total.amount), abs=0.05)


def test_the_same_seed_draws_the_same_range():
    doubtful = (part(error=0.2),)
    one, same, other = (price_range(WORK, DAY, doubtful, BOOK, seed=seed) for seed in (1, 1, 2))
    assert one == same != other
    assert one.p10.amount < one.p50.amount < one.p90.amount


def test_parts_of_a_job_share_all_its_liquid():
    storeys = (Storey(scale=Scale(metres_per_px=0.01, relative_error=0.02, basis="x")),)
    plan = Plan(storeys=storeys, rooms=(Room(id="a", name="", outline=rectangle(4, 3)),))
    found = parts(plan, measure(plan, BOOK.surfaces, Scope()), (), BOOK)
    assert sum(one.share for one in found) == pytest.approx(1.0)
    assert {one.scale_error for one in found} == {0.02}


@pytest.mark.parametrize(
    "rates",
    [
        {"markup": Decimal(0), "margin": Decimal("0.3")},
        {"rounding_step": Decimal(5), "rounding_of": Rounded.CHARGE},
        {"rounding_step": Decimal(1), "rounding_of": Rounded.TOTAL},
        {"minimum_charge": Decimal(2000)},
        {
            "places": (
                TaxPlace(
                    slug="larkfield",
                    label="x",
                    taxes=(
                        Tax(label="One", share=Decimal("0.05")),
                        Tax(label="On both", share=Decimal("0.095"), on_taxes=True),
                    ),
                    source="x",
                    as_of="2026",
                ),
            )
        },
    ],
    ids=["margin", "charge to a step", "total to a step", "minimum", "tax on tax"],
)
@pytest.mark.parametrize("hours", list(Hours))
def test_without_doubt_the_range_meets_whatever_build_up_the_book_has(rates, hours):
    book = evolve(BOOK, rates=evolve(BOOK.rates, **rates))
    conditions = Conditions(hours=hours, discount=Decimal("0.03"), visits=12)
    offer = price(WORK, book.rates, conditions)
    found = price_range(WORK, conditions, (part(),), book, seed=1)
    assert found.p10 == found.p90
    assert float(found.p50.amount) == pytest.approx(float(offer.total.amount), abs=0.05)


def test_a_premium_widens_the_range_as_it_raises_the_price():
    paced = evolve(BOOK, spread=evolve(BOOK.spread, pace=0.2))
    widths = {}
    for hours in (Hours.DAY, Hours.NIGHT):
        found = price_range(WORK, Conditions(hours=hours), (part(),), paced, seed=1)
        widths[hours] = float(found.p90.amount - found.p10.amount)
    labour = 10 * 26 * 1.3  # ten hours of one person at the packaged wage with its burden
    timed = labour + 10 * 9
    assert widths[Hours.NIGHT] / widths[Hours.DAY] == pytest.approx(
        1 + 0.5 * labour / timed, rel=1e-3
    )
