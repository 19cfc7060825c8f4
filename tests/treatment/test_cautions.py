import re

import pytest

from estimator.plan.room import Basis
from estimator.surfaces.schedule import Lie, RoomSchedule, Schedule, Surface, SurfaceKind
from estimator.treatment.cautions import Caution, Decision, cautions
from estimator.treatment.solution import Mix, Solution, TankFill

TRADE_CLAIMS = (
    r"\bsafe\b",
    "harmless",
    "non-toxic",
    "natural",
    "purif",
    "no rinse",
    "in seconds",
    "wraps",
    "approved",
    "recommended by",
)
"""Common in the trade and contradicted by guidance of WHO, CDC, EPA and HSE."""


def job(
    ppm: float, *, wanted: float | None = None, food: bool = False, lie: Lie = Lie.LEVEL
) -> dict[str, Caution]:
    surface = Surface(
        kind=SurfaceKind.FURNITURE,
        item="table",
        label="table",
        lie=lie,
        zone="general",
        gross=1,
        treated=1,
        food_contact=food,
        basis=Basis.MEASURED,
    )
    room = RoomSchedule(
        room="a",
        name="A",
        use="room",
        use_label="Room",
        storey=0,
        floor_area=1,
        perimeter=4,
        height=2,
        volume=2,
        surfaces=[surface],
    )
    mix = Mix(
        zones=("general",),
        wanted=(wanted or ppm) / 1000,
        contact_time=60,
        needed=0.001,
        fills=[TankFill(volume=0.001, water=0.001, strength=ppm / 1000)],
    )
    solution = Solution(product="invented", doses=(), mixes=(mix,), wetness=())
    return {caution.slug: caution for caution in cautions(Schedule(rooms=[room]), solution)}


@pytest.mark.parametrize(
    ("slug", "where", "says"),
    [
        ("label-first", Decision.STRENGTH, "safety data sheet"),
        ("method-on-label", Decision.STRENGTH, "label of the chemical"),
        ("clean-first", Decision.STRENGTH, "Clean first"),
        ("never-mix", Decision.STRENGTH, "acids, ammonia"),
        ("metal-and-fabric", Decision.STRENGTH, "corrode metal and bleach fabric"),
        ("nobody-in-the-area", Decision.VISIT, "Nobody but the protected operator"),
        ("protective-wear", Decision.VISIT, "disposable gloves, non-vented goggles"),
        ("protective-wear", Decision.VISIT, "not chlorine gas"),
        ("ventilation", Decision.VISIT, "Switch ventilation off while spraying"),
        ("detectors", Decision.VISIT, "smoke detectors"),
        ("electrics", Decision.VISIT, "Switch off electronics and cover them"),
        ("remove-or-cover", Decision.VISIT, "aquariums"),
        ("not-routine", Decision.QUOTE, "WHO does not recommend routine spraying or fogging"),
        ("not-routine", Decision.QUOTE, "CDC advises against"),
        ("local-codes", Decision.QUOTE, "Local codes and licensed practice prevail"),
    ],
)
def test_the_cautions_of_guidance_stand_where_decisions_are_made(slug, where, says):
    caution = job(100)[slug]

    assert caution.where is where
    assert says in caution.text


def test_every_caution_names_its_source():
    assert all(caution.source for caution in job(1000, food=True, lie=Lie.FABRIC).values())


@pytest.mark.parametrize("ppm", [50, 300, 5000])
def test_no_claim_of_the_trade_is_repeated(ppm):
    for caution in job(ppm, food=True, lie=Lie.FABRIC).values():
        assert not [claim for claim in TRADE_CLAIMS if re.search(claim, caution.text, re.I)]


def test_food_surfaces_are_named_only_where_there_are_some():
    assert "food-surfaces" not in job(1000)
    assert "200 ppm" not in job(200, food=True)["food-surfaces"].text
    assert "stronger than 200 ppm" in job(201, food=True)["food-surfaces"].text


def test_corrosion_is_put_more_strongly_above_500_ppm():
    assert "Above 500 ppm" not in job(500)["metal-and-fabric"].text
    assert "Above 500 ppm" in job(501)["metal-and-fabric"].text


def test_a_solution_stronger_than_wanted_is_no_better():  # UK HSE 2020-21
    assert "no-stronger-than-wanted" not in job(1000)
    assert "stronger is not better" in job(1000, wanted=500)["no-stronger-than-wanted"].text


def test_soft_furnishings_are_named_where_fabric_is_sprayed():
    assert "soft-furnishings" in job(100, lie=Lie.FABRIC)
    assert "soft-furnishings" not in job(100)
