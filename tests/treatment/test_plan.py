import pytest
from attrs import evolve

from estimator.errors import QuantityError, TreatmentError
from estimator.plan.room import Basis
from estimator.surfaces.schedule import Lie, RoomSchedule, Schedule, Surface, SurfaceKind
from estimator.treatment.air import Air
from estimator.treatment.film import Film
from estimator.treatment.label import Additive
from estimator.treatment.measuring import Measuring
from estimator.treatment.plan import treat
from estimator.treatment.product import Form, LabelUse, Product
from estimator.treatment.zone import Zone

LITRE = 0.001
FINE = Measuring(jug=LITRE, mark=1e-6, scales=1e-5, cylinder=1e-6, source="invented", as_of="2026")
# takes up 200 mL/m² in an hour
STILL_AIR = Air(temperature=293.15, humidity=0.5, speed=0.1, source="invented", as_of="2026")


def surface(area: float, lie: Lie = Lie.LEVEL, zone: str = "general", **facts) -> Surface:
    return Surface(
        kind=SurfaceKind.FURNITURE,
        item="invented",
        label="invented",
        lie=lie,
        zone=zone,
        gross=area,
        treated=area,
        basis=Basis.MEASURED,
        **facts,
    )


def room(name: str, *surfaces: Surface) -> RoomSchedule:
    return RoomSchedule(
        room=name,
        name=name,
        use="room",
        use_label="Room",
        storey=0,
        floor_area=48,
        perimeter=28,
        height=2.7,
        volume=129.6,
        surfaces=surfaces,
    )


def zone(slug: str = "general", ppm: float = 1000, minutes: float = 10) -> Zone:
    return Zone(
        slug=slug,
        label=slug.capitalize(),
        strength=ppm / 1000,
        contact_time=minutes * 60,
        source="invented",
        as_of="2026-01-01",
    )


def films(millilitres: float = 40, most: float = 60, loss: float = 0.0) -> tuple[Film, ...]:
    return tuple(
        Film(
            lie=lie,
            volume=millilitres * 1e-6,
            most=most * 1e-6,
            loss=loss,
            source="invented",
            as_of="2026-01-01",
        )
        for lie in Lie
    )


TABLETS = Product(
    slug="tablets",
    label="Tablets",
    active="dichlor",
    form=Form.TABLET,
    available_per_tablet=0.0015,
    basis="available chlorine per tablet",
    uses=[LabelUse(label="Anything", least=0.01, most=5.0, contact_time=600)],
    charged_mist=True,
    droplet_least=40e-6,
    rinse_above=0.2,
    reentry=1800,
    registration="0000-00",
    expires="2027-03",
    mix_keeps=8 * 3600,
    source="invented",
    as_of="2026-01-01",
)
# BESTEST / ANSI-ASHRAE Standard 140, Case 600: floor 48, net wall 63.6, ceiling 48 m²
CASE_600 = Schedule(
    rooms=[
        room(
            "case 600",
            surface(48.0, Lie.LEVEL),
            surface(63.6, Lie.UPRIGHT),
            surface(48.0, Lie.OVERHEAD),
        )
    ]
)


def treated(schedule: Schedule = CASE_600, **changes):
    given = {
        "zones": [zone()],
        "films": films(),
        "product": TABLETS,
        "tank": 8 * LITRE,
        "air": STILL_AIR,
        "measuring": FINE,
        "droplets": 55e-6,
    }
    return treat(schedule, **{**given, **changes})


def test_case_600_goes_from_area_to_tablets():
    solution = treated()

    (dose,), (mix,) = solution.doses, solution.mixes
    assert dose.area == pytest.approx(159.6)
    assert mix.needed == pytest.approx(6.384 * LITRE)
    assert mix.needed * mix.wanted == pytest.approx(6.384e-3)  # kg of available chlorine
    assert (mix.tablets, len(mix.fills)) == (5, 1)
    assert mix.strength == pytest.approx(1.175, abs=5e-4)


def test_case_600_takes_10_64_grams_of_60_percent_powder():
    powder = evolve(TABLETS, form=Form.POWDER, available_share=0.6)

    assert treated(product=powder).mixes[0].powder == pytest.approx(10.64e-3)


@pytest.mark.parametrize(  # columns by arithmetic; 40 mL/m² is that of WHO, Vector Control, 1997
    ("millilitres", "covered"), [(10, 800), (25, 320), (40, 200), (50, 160), (100, 80)]
)
def test_a_tank_of_8_litres_covers_its_area(millilitres, covered):
    schedule = Schedule(rooms=[room("hall", surface(covered))])
    laid = films(millilitres, most=100)

    briefly = evolve(TABLETS, uses=())
    solution = treated(schedule, films=laid, zones=[zone(minutes=1)], product=briefly)

    assert solution.volume == pytest.approx(8 * LITRE)
    assert len(solution.mixes[0].fills) == 1


def test_spray_that_misses_is_added():
    assert treated(films=films(loss=0.15)).volume == pytest.approx(6.384 * 1.15 * LITRE)


def test_zones_of_equal_strength_share_a_mix_and_weak_comes_first():
    schedule = Schedule(
        rooms=[
            room("ward", surface(10, zone="strong"), surface(5, zone="toys")),
            room("hall", surface(20), surface(8, zone="strong")),
        ]
    )
    zones = [zone(), zone("strong", minutes=5), zone("toys", ppm=50, minutes=1)]

    solution = treated(schedule, zones=zones)

    assert [mix.wanted for mix in solution.mixes] == [0.05, 1.0]
    assert solution.mixes[1].zones == ("strong", "general")
    assert solution.mixes[1].contact_time == 600
    assert sum(dose.volume for dose in solution.doses) == pytest.approx(solution.volume)


def test_more_passes_count_in_litres_and_in_the_area_gone_over():
    schedule = Schedule(rooms=[room("ward", surface(10, Lie.UPRIGHT), surface(5, Lie.LEVEL))])
    thin = [film if film.lie is Lie.UPRIGHT else evolve(film, most=1e-4) for film in films()]

    solution = treated(schedule, films=thin, zones=[zone(minutes=30)])

    (dose,) = solution.doses
    assert (dose.passes, dose.area, dose.gone_over) == (2, 15, 25)
    # 200 mL/m² dry in an hour, so 30 minutes need 100: twice 50 on the walls, once on the level
    assert dose.volume == pytest.approx(10 * 2 * 50e-6 + 5 * 100e-6, rel=1e-3)


@pytest.mark.parametrize("ppm", [50, 1000])
def test_food_surfaces_are_wiped_whatever_the_strength(ppm):
    # Common practice: eating surfaces are wiped after.
    schedule = Schedule(rooms=[room("kitchen", surface(3, food_contact=True), surface(9))])

    assert treated(schedule, zones=[zone(ppm=ppm)]).doses[0].wiped == 3


def test_food_surfaces_are_wiped_when_the_label_was_not_read():
    schedule = Schedule(rooms=[room("kitchen", surface(3, food_contact=True))])
    powder = evolve(TABLETS, form=Form.POWDER, available_share=0.6, rinse_above=None)

    solution = treated(schedule, product=powder, zones=[zone(ppm=50)])

    assert solution.doses[0].wiped == 3
    assert any("touch food" in sentence for sentence in solution.unconfirmed)


def test_what_the_label_was_not_read_for_is_said():
    unread = evolve(
        TABLETS, uses=(), charged_mist=None, most=None, droplet_least=None, reentry=None,
        mix_keeps=None, registration="", expires="",
    )  # fmt: skip

    assert treated(product=unread, droplets=None).unconfirmed == (
        "Confirm on the label that application by charged mist or fog is allowed.",
        "Confirm on the label that its uses include 1,000 ppm for 10 min.",
        "Confirm on the label that solutions up to 1,175 ppm are allowed.",
        "Confirm on the label which size of droplets it asks for.",
        "Confirm on the label how long people must stay out after treatment.",
        "Confirm on the label how long the mixed solution keeps.",
        "Confirm on the label its registration number.",
        "Confirm on the label its expiry date.",
        "Confirm in the sprayer's papers that its droplets are those the label asks for.",
    )
    assert treated().unconfirmed == ()


def test_a_sprayer_whose_droplets_are_not_known_is_asked_about():
    assert treated(droplets=None).unconfirmed == (
        "Confirm in the sprayer's papers that its droplets are of at least 40 µm, as the label "
        "asks.",
    )


def test_droplets_finer_than_the_epa_asked_for_are_said():  # 40 µm: university sheet citing it
    unread = evolve(TABLETS, droplet_least=None)

    assert (
        "droplets of 20 µm are finer than the 40 µm"
        in treated(product=unread, droplets=20e-6).warnings[0]
    )
    assert not any("finer" in said for said in treated(product=unread, droplets=40e-6).warnings)


def test_the_label_decides_how_long_surfaces_stay_wet():
    (dose,) = treated(zones=[zone(minutes=1)]).doses

    assert dose.contact_time == 600


def test_the_label_decides_which_strength_comes_first():
    schedule = Schedule(rooms=[room("ward", surface(10), surface(5, zone="toys"))])
    zones = [zone(), zone("toys", ppm=50, minutes=1)]

    def order(**facts):
        solution = treated(schedule, zones=zones, product=evolve(TABLETS, **facts))
        return [mix.wanted for mix in solution.mixes]

    assert order() == [0.05, 1.0]
    assert order(strong_first=True) == [1.0, 0.05]


def test_solution_is_used_within_the_time_of_the_label_or_else_of_guidance():
    # relief-agency water and hygiene guidance, 2020: at most a day
    guided = treated(product=evolve(TABLETS, mix_keeps=None))

    assert (treated().use_within, treated().use_within_by_label) == (8 * 3600, True)
    assert (guided.use_within, guided.use_within_by_label) == (24 * 3600, False)


def test_a_film_that_dries_too_soon_is_said():
    (warning,) = [text for text in treated(films=films(10)).warnings if "overhead" in text]

    assert warning == (
        "General, overhead surfaces: 10 mL/m² dries after 3 min but must stay wet for 10 min; "
        "33 mL/m² is laid once."
    )


def test_a_solution_much_stronger_than_wanted_is_said():
    small = Schedule(rooms=[room("closet", surface(12.5))])  # a whole tablet in a whole tank

    said = treated(small, zones=[zone(ppm=100)]).warnings
    assert any("188 ppm where 100 ppm" in text for text in said)
    assert not any("where" in text for text in treated().warnings)


@pytest.mark.parametrize(("ppm", "said"), [(500, False), (600, True)])
def test_metal_and_fabric_are_named_above_500_ppm(ppm, said):
    powder = evolve(TABLETS, form=Form.POWDER, available_share=0.6)

    solution = treated(product=powder, zones=[zone(ppm=ppm)])

    assert any("corrode metal" in text for text in solution.warnings) is said


@pytest.mark.parametrize(
    ("changes", "error", "says"),
    [
        ({"product": evolve(TABLETS, charged_mist=False)}, TreatmentError, "charged mist or fog"),
        ({"zones": [zone(ppm=6000)]}, TreatmentError, "6,000 ppm for General is not a use on its"),
        ({"product": evolve(TABLETS, uses=(), most=0.9)}, TreatmentError, "than the 900 ppm"),
        ({"added": (Additive.ACID,)}, TreatmentError, "chlorine gas forms"),
        ({"on": "2027-05-01"}, TreatmentError, "it expired on 2027-03"),
        ({"zones": []}, TreatmentError, "there is no strength zone 'general'"),
        ({"films": films()[:1]}, TreatmentError, "there is no film for upright surfaces"),
        ({"tank": 0.0}, QuantityError, "tank: it holds nothing"),
    ],
)
def test_what_cannot_be_treated_is_refused_in_a_sentence(changes, error, says):
    with pytest.raises(error, match=says):
        treated(**changes)


def test_a_schedule_with_nothing_to_spray_takes_nothing():
    solution = treated(Schedule(rooms=[room("empty")]))

    assert (solution.volume, solution.doses, solution.mixes) == (0, (), ())


def test_films_that_would_run_off_and_zones_of_no_strength_are_refused():
    with pytest.raises(QuantityError, match="without running off"):
        films(50, most=40)
    with pytest.raises(QuantityError, match="0 ppm"):
        zone(ppm=0)
