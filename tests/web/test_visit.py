"""The screen of the visit: bad input said at its field, and what the route had to assume."""

from collections.abc import Callable

import pytest
from attrs import evolve
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest

from estimator.workflow.sketching import sketch_plan

Opened = Callable[[str], AppTest]


@pytest.fixture
def app(opened_at: Opened) -> AppTest:
    """The app, opened at the visit."""
    return opened_at("visit")


def field(app: AppTest, label: str):
    return next(one for one in (*app.text_input, *app.number_input) if one.label == label)


def errors(app: AppTest) -> list[str]:
    return [one.value.replace("\\", "") for one in app.error]


@pytest.mark.parametrize(
    ("label", "typed", "says"),
    [
        ("People on site", 0, "crew: there are 0 people; give at least 1."),
        ("People on site", -2, "crew: there are -2 people; give at least 1."),
        ("People on site", 5000, "give at most 100."),
        ("Of them spraying, each with a sprayer", 3, "there are 3 for a crew of 2"),
        ("Way to the site", "12", "has no unit"),
        ("Way to the site", "-12 km", "it is no distance; write it like 12 km"),
        ("Drive to the site", "25", "has no unit"),
        ("Drive to the site", "25 km", "km"),
    ],
)
def test_bad_input_is_one_clear_sentence_at_its_field(app, label, typed, says):
    before = session_of(app).work
    field(app, label).set_value(typed).run()

    (said,) = errors(app)
    assert says in said
    assert said.endswith(".")
    assert session_of(app).work is before
    assert not app.exception


def test_a_crew_and_its_way_are_taken(app: AppTest):
    field(app, "People on site").set_value(4).run()
    field(app, "Of them spraying, each with a sprayer").set_value(3).run()
    field(app, "Way to the site").set_value("12 km").run()
    field(app, "Drive to the site").set_value("25 min").run()
    job = session_of(app).work.job

    assert errors(app) == []
    assert (job.crew, job.sprayers) == (4, 3)
    assert (job.distance, job.road_time) == (24_000, 3000)


def test_a_room_that_no_door_leads_to_is_said_in_one_sentence(app: AppTest):
    plan = sketch_plan("Hall 5 x 2 m, kitchen 3 x 4 m off the hall, bath 2 x 2 m off the hall")
    shut = tuple(
        evolve(
            room,
            openings=tuple(
                one for one in room.openings if "Bath" not in {room.name, _name(plan, one)}
            ),
        )
        for room in plan.rooms
    )
    session_of(app).change(lambda work: evolve(work, plan=evolve(plan, rooms=shut)))
    app.run()

    (said,) = [one for one in quote_of(app).timetable.findings if "Bath" in one]
    assert said.startswith("No door is known")
    assert said.endswith("mark the way out.")
    assert said in [one.value.replace("\\", "") for one in app.warning]


def _name(plan, opening):
    return next((room.name for room in plan.rooms if room.id == opening.leads_to), "")


def test_precautions_are_as_plain_as_other_cautions(app: AppTest):
    said = "".join(one.value for one in app.markdown).replace("\\", "")

    assert quote_of(app).timetable.precautions
    for one, _ in quote_of(app).timetable.precautions:
        assert f"{one.says}." in said
