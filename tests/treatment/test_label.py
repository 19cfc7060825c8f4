import pytest
from attrs import evolve

from estimator.errors import QuantityError, TreatmentError
from estimator.treatment.label import (
    KEPT_APART,
    Additive,
    label_use,
    refuse_against_label,
    strongest_allowed,
    zone_by_label,
)
from estimator.treatment.product import Form, LabelUse, Product
from estimator.treatment.zone import Zone

TABLETS = Product(
    slug="tablets",
    label="Tablets",
    active="dichlor",
    form=Form.TABLET,
    available_per_tablet=0.0015,
    basis="available chlorine per tablet",
    charged_mist=True,
    expires="2027-03",
    source="invented",
    as_of="2026-01-01",
)
WARD = Zone(
    slug="ward", label="Ward", strength=1.0, contact_time=60, source="invented", as_of="2026"
)


def use(least: float, most: float, minutes: float, *zones: str) -> LabelUse:
    return LabelUse(
        label="Bacteria", least=least / 1000, most=most / 1000, contact_time=minutes * 60,
        zones=zones,
    )  # fmt: skip


def test_a_label_not_read_yet_serves_no_use():
    assert label_use(TABLETS, WARD) is None
    assert zone_by_label(WARD, None) is WARD


def test_the_longest_contact_time_of_the_uses_that_fit_is_kept():
    product = evolve(TABLETS, uses=[use(900, 1200, 5), use(1000, 1000, 10), use(5000, 5000, 30)])

    found = label_use(product, WARD)

    assert found.contact_time == 600
    assert zone_by_label(WARD, found).contact_time == 600
    assert zone_by_label(evolve(WARD, contact_time=900), found).contact_time == 900


def test_a_use_read_for_a_zone_comes_before_others():
    product = evolve(TABLETS, uses=[use(1000, 1000, 30), use(800, 1100, 5, "ward")])

    assert label_use(product, WARD).contact_time == 300


@pytest.mark.parametrize("ppm", [500, 1100, 6000])
def test_a_strength_outside_the_label_is_refused_with_what_it_gives(ppm):
    product = evolve(TABLETS, uses=[use(1000, 1000, 10), use(2000, 5000, 30)])

    with pytest.raises(TreatmentError) as refused:
        label_use(product, evolve(WARD, strength=ppm / 1000))

    assert str(refused.value) == (
        f"Tablets: {ppm:,} ppm for Ward is not a use on its label, which gives 1,000 ppm for "
        "10 min, 2,000 to 5,000 ppm for 30 min; set the zone to a strength of the label or choose "
        "another product."
    )


def test_no_solution_is_stronger_than_the_weakest_limit_of_its_uses():
    product = evolve(TABLETS, most=5.0)

    assert strongest_allowed(product, [use(900, 1200, 5), use(1000, 1000, 10), None]) == 1.0
    assert strongest_allowed(product, [None]) == 5.0
    assert strongest_allowed(TABLETS, []) is None


def is_refused(product, **chosen):
    try:
        refuse_against_label(product, (), **chosen)
    except TreatmentError:
        return True
    return False


@pytest.mark.parametrize("day", ["2027-04-01", "2028-01-01"])
def test_a_product_past_its_month_is_refused(day):
    with pytest.raises(TreatmentError, match="it expired on 2027-03; use stock that is in date"):
        refuse_against_label(TABLETS, (), on=day)


@pytest.mark.parametrize("day", ["2027-03-31", "2026-11-25", ""])
def test_a_product_in_date_is_not_refused(day):
    assert not is_refused(TABLETS, on=day)


def test_a_method_that_is_not_on_the_label_is_refused():
    with pytest.raises(TreatmentError, match="does not allow application by charged mist or fog"):
        refuse_against_label(evolve(TABLETS, charged_mist=False), (), on="")


# Washington State Department of Health; WHO Q&A 2020: never with acids, ammonia, peroxide, alcohol
# or other cleaners.
@pytest.mark.parametrize("added", Additive)
def test_nothing_is_mixed_into_a_chlorine_solution(added):
    with pytest.raises(TreatmentError, match=f"with {added.value}, .*leave it out of the tank"):
        refuse_against_label(TABLETS, (added,), on="")


# The same sources: what must not be mixed must not meet on a surface either.
@pytest.mark.parametrize("beside", KEPT_APART)
def test_what_reacts_with_chlorine_is_not_used_on_the_same_visit(beside):
    with pytest.raises(TreatmentError, match=f"with {beside.value}, .*use that on another day"):
        refuse_against_label(TABLETS, (), beside=(Additive.CLEANER, beside), on="")


def test_cleaning_first_is_not_refused():  # WHO 2014, Annex G: clean first
    assert not is_refused(TABLETS, beside=(Additive.CLEANER,), on="")


@pytest.mark.parametrize(
    ("asked", "micrometres", "says"),
    [
        ((40e-6, None), 25, "droplets of at least 40 µm, and the sprayer's are 25 µm"),
        ((40e-6, 80e-6), 100, "droplets of 40 µm to 80 µm, and the sprayer's are 100 µm"),
        ((None, 80e-6), 100, "droplets of at most 80 µm"),
    ],
)
def test_droplets_that_the_label_does_not_ask_for_are_refused(asked, micrometres, says):
    product = evolve(TABLETS, droplet_least=asked[0], droplet_most=asked[1])

    with pytest.raises(TreatmentError, match=says):
        refuse_against_label(product, (), droplets=micrometres * 1e-6, on="")


@pytest.mark.parametrize("micrometres", [40, 60, 80])
def test_droplets_of_the_label_are_not_refused(micrometres):
    product = evolve(TABLETS, droplet_least=40e-6, droplet_most=80e-6)

    assert not is_refused(product, droplets=micrometres * 1e-6, on="")


@pytest.mark.parametrize(
    ("ppm", "minutes", "says"),
    [((0, 100), 1, "above 0 ppm"), ((200, 100), 1, "wrong way round"), ((1, 2), 0, "is 0")],
)
def test_a_use_that_cannot_be_is_refused_in_a_sentence(ppm, minutes, says):
    with pytest.raises(QuantityError, match=says):
        use(*ppm, minutes)


@pytest.mark.parametrize("expires", ["31.3.2027", "2027-13", "soon"])
def test_an_expiry_that_is_no_date_is_refused(expires):
    with pytest.raises(QuantityError, match="is no date; write it like 2027-03-31"):
        evolve(TABLETS, expires=expires)
