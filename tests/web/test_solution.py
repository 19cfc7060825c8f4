from collections.abc import Callable

import pytest
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest

from estimator.treatment.label import Additive

Opened = Callable[[str], AppTest]


@pytest.fixture
def app(opened_at: Opened) -> AppTest:
    """The app, opened at the solution."""
    return opened_at("solution")


def field(app: AppTest, label: str):
    return next(one for one in (*app.text_input, *app.text_area) if one.label == label)


def errors(app: AppTest) -> list[str]:
    return [one.value.replace("\\", "") for one in app.error]


def warnings(app: AppTest) -> list[str]:
    return [one.value.replace("\\", "") for one in app.warning]


def test_drier_air_asks_for_thicker_films(app: AppTest):
    before = quote_of(app).solution.wetness[0].needed
    field(app, "Relative humidity").set_value("20 %").run()

    assert not app.exception
    assert quote_of(app).solution.wetness[0].needed > before


@pytest.mark.parametrize(
    ("label", "typed", "says"),
    [
        ("Relative humidity", "110 %", "air holds no more than 100 %"),
        ("Relative humidity", "50", "it does not say of what; write it like 50 %"),
        ("Relative humidity", "-5 %", "it is negative"),
        ("Room temperature", "20", "it has no unit"),
        ("Room temperature", "80 °C", "80 °C is outside 0 to 50 °C"),
        ("Air along surfaces", "90 m/s", "90 m/s is a gale"),
        ("Advertised coverage", "4000 ft² per gallon", "say which: US gal or imp gal"),
        ("Declared strength, and per cent of what", "12.5", "tablets is the available chlorine"),
        ("Uses, one on a line", "1000 ppm", "lacks its strength or contact time"),
        ("Mixed solution keeps for", "24", "it has no unit"),
        ("Expires", "next year", "is no date"),
        ("Droplets asked for", "40 mm", "no droplets of a mist"),
        ("Its droplets", "40 to 80 µm", "give the volume median diameter alone"),
    ],
)
def test_bad_input_is_one_clear_sentence_at_its_field(app, label, typed, says):
    before = session_of(app).work
    field(app, label).set_value(typed).run()

    (said,) = errors(app)
    assert says in said
    assert said.endswith(".")
    assert field(app, label).value == typed
    assert session_of(app).work is before
    assert not app.exception


def test_an_advertised_coverage_that_dries_too_soon_is_said_with_what_to_do(app: AppTest):
    field(app, "Uses, one on a line").set_value("Hard surfaces: 1000 ppm for 10 min").run()
    field(app, "Advertised coverage").set_value("800 m² per 8 L").run()

    said = [one for one in quote_of(app).solution.warnings if "advertised coverage" in one]
    assert said
    assert "comes to 10 mL/m² and may dry after 3 min" in said[0]
    assert "so that a litre covers 30 m²" in said[0]
    assert set(said) <= set(errors(app))


def test_the_label_read_for_the_job_is_confirmed_fact_by_fact(app: AppTest):
    for label, typed in (
        (
            "Uses, one on a line",
            "Hard surfaces: 1000 to 1250 ppm for 5 min\nToys: 50-60 ppm, 2 min",
        ),
        ("Droplets asked for", "40 to 80 µm"),
        ("Its droplets", "55 µm"),
        ("People stay out for", "2 h"),
        ("Mixed solution keeps for", "8 h"),
        ("Registration number", "0000-00"),
        ("Expires", "2099-01"),
    ):
        field(app, label).set_value(typed).run()
    next(one for one in app.selectbox if one.label == "Charged mist or fog").set_value(True).run()
    solution = quote_of(app).solution

    assert not app.exception
    assert solution.unconfirmed == ()
    assert quote_of(app).provisional is False
    assert (solution.label.registration, solution.use_within) == ("0000-00", 8 * 3600)
    assert {wet.contact_time for wet in solution.wetness} == {300}


def test_what_the_label_rules_out_is_refused_and_can_be_taken_back(app: AppTest):
    mist = next(one for one in app.selectbox if one.label == "Charged mist or fog")
    mist.set_value(False).run()

    assert session_of(app).quote is None
    assert any("does not allow application by charged mist" in one for one in warnings(app))

    next(one for one in app.selectbox if one.label == "Charged mist or fog").set_value(True).run()

    assert session_of(app).quote is not None


def test_nothing_is_mixed_into_the_tank_with_chlorine(app: AppTest):
    added = next(one for one in app.multiselect if one.label == "Anything else in the tank")
    added.set_value([Additive.ACID]).run()

    assert session_of(app).quote is None
    assert any("chlorine gas forms" in one for one in warnings(app))


def test_a_sprayer_whose_droplets_the_label_rules_out_is_refused(app: AppTest):
    field(app, "Droplets asked for").set_value("40 to 80 µm").run()
    field(app, "Its droplets").set_value("25 µm").run()

    assert session_of(app).quote is None
    assert any("the sprayer's are 25 µm" in one for one in warnings(app))


def test_an_acid_cleaner_on_the_same_visit_is_refused(app: AppTest):
    beside = next(one for one in app.multiselect if one.label.startswith("What else is used"))
    beside.set_value([Additive.ACID]).run()

    assert session_of(app).quote is None
    assert any("use that on another day" in one for one in warnings(app))


def test_a_use_of_the_label_is_tied_to_a_zone(app: AppTest):
    uses = "Hard surfaces: 1000 ppm for 2 min\nClinics: 1000 ppm for 10 min"
    field(app, "Uses, one on a line").set_value(uses).run()
    assert {wet.contact_time for wet in quote_of(app).solution.wetness} == {600}

    serves = next(one for one in app.multiselect if one.label == "Clinics serves")
    serves.set_value(["health"]).run()

    assert {wet.contact_time for wet in quote_of(app).solution.wetness} == {120}
    field(app, "Uses, one on a line").set_value(uses + "\nToys: 50 ppm for 2 min").run()
    assert quote_of(app).solution.label.uses[1].zones == ("health",)


def test_tanks_that_are_filled_alike_are_one_row(app: AppTest):
    field(app, "Relative humidity").set_value("20 %").run()
    (mix,) = quote_of(app).solution.mixes
    fills = app.dataframe[0].value

    assert len(mix.fills) > len(fills) == len(set(mix.fills))


def test_water_comes_in_the_crews_own_jug(app: AppTest):
    field(app, "The jug holds").set_value("1 US gal").run()
    field(app, "A mark every").set_value("8 US fl oz").run()

    assert not app.exception
    assert "US gal" in app.dataframe[0].value["Water"][0]

    field(app, "A mark every").set_value("2 US gal").run()
    assert "its marks are further apart than the jug holds" in errors(app)[0]


def test_another_product_is_entered_from_its_label(app: AppTest):
    next(one for one in app.selectbox if one.label == "Form").set_value("liquid").run()
    app.text_input(key="new-name").set_value("Hall bleach").run()
    app.text_input(key="new-strength").set_value("12.5").run()
    app.button(key="new-product").click().run()

    assert any("does not say per cent of what" in one for one in errors(app))

    app.text_input(key="new-strength").set_value("12.5 % trade").run()
    app.button(key="new-product").click().run()
    solution = quote_of(app).solution

    assert not app.exception
    assert solution.product_label == "Hall bleach"
    assert solution.mixes[0].concentrate > 0
    assert quote_of(app).provisional
