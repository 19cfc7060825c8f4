import json
from collections.abc import Callable

import pytest
from attrs import evolve
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest

from estimator.plan.edits import stacked
from estimator.quantities import Units, shown_area
from estimator.quantities.shown_money import shown_money
from estimator.treatment.cautions import Decision
from estimator.workflow.files import plan_text
from estimator.workflow.pages import page_of
from estimator.workflow.preferences import preferences
from estimator.workflow.quoting import estimate
from estimator.workflow.samples import samples
from estimator.workflow.sketching import sketch_plan

SCREENS = ("plan", "surfaces", "solution", "visit", "quote")


def totals(app: AppTest) -> dict[str, str]:
    return {metric.label: metric.value for metric in app.metric[:5]}


def everything_said(app: AppTest) -> str:
    kinds = (app.markdown, app.caption, app.subheader, app.error, app.warning)
    return "\n".join(one.value for kind in kinds for one in kind).replace("\\", "")


def test_opens_on_a_sample_with_its_price_on_the_screen(app: AppTest):
    truth = next(one for one in samples() if one.picture.stem == "larkfield-family-home").truth()
    quote = estimate(truth)

    assert not app.exception
    assert totals(app)["Price"] == shown_money(quote.price.total)
    assert totals(app)["Floor area"] == shown_area(quote.schedule.floor_area, Units.METRIC)


@pytest.mark.parametrize("screen", SCREENS)
def test_every_screen_shows_the_totals_and_no_exception(
    opened_at: Callable[[str], AppTest], screen: str
):
    app = opened_at(screen)

    assert not app.exception
    assert not app.error
    assert [*totals(app)] == ["Floor area", "Surface treated", "Solution", "Time on site", "Price"]


@pytest.mark.parametrize("screen", SCREENS)
def test_every_screen_stands_when_the_plan_has_no_rooms(
    opened_at: Callable[[str], AppTest], screen: str
):
    app = opened_at(screen)
    session_of(app).correct(lambda plan: evolve(plan, rooms=(), doubts=()))
    app.run()

    assert not app.exception
    assert totals(app)["Price"] == "–"
    assert "it has no rooms" in everything_said(app)


@pytest.mark.parametrize(
    ("screen", "decision"),
    [("solution", Decision.STRENGTH), ("visit", Decision.VISIT), ("quote", Decision.QUOTE)],
)
def test_cautions_stand_where_the_decision_is_made(
    opened_at: Callable[[str], AppTest], screen: str, decision: Decision
):
    app = opened_at(screen)
    quote = quote_of(app)
    said = everything_said(app)

    wanted = [caution.text for caution in quote.cautions if caution.where is decision]
    assert wanted
    assert [text for text in wanted if text not in said] == []
    assert [fact for fact in quote.solution.unconfirmed if fact not in said] == []


def test_units_switch_at_once_and_are_remembered(app: AppTest):
    metric = totals(app)["Floor area"]
    app.segmented_control(key="units").set_value(Units.US).run()
    quote = quote_of(app)

    assert metric.endswith("m²")
    assert totals(app)["Floor area"] == shown_area(quote.schedule.floor_area, Units.US)
    assert preferences().units is Units.US


def test_typed_rooms_become_the_plan(app: AppTest):
    words = "Kitchen 12' x 14', hall 6 x 2.4 m"
    app.text_area(key="words").set_value(words)
    app.button(key="lay-out").click().run()

    assert session_of(app).work.plan == sketch_plan(words)
    assert totals(app)["Floor area"] == "30 m²"  # 15.61 + 14.4


def test_words_that_make_no_room_are_refused_in_one_sentence_and_kept(app: AppTest):
    before = session_of(app).work
    app.text_area(key="words").set_value("kitchen 12 x elephant")
    app.button(key="lay-out").click().run()

    assert not app.exception
    assert len(app.error) == 1
    assert session_of(app).work is before
    assert app.text_area(key="words").value == "kitchen 12 x elephant"


def test_a_bad_file_is_refused_in_one_sentence_and_the_plan_is_kept(app: AppTest):
    before = session_of(app).work
    bad = [
        ("notes.txt", b"remember the milk"),
        ("empty.png", b""),
        ("broken.pdf", b"%PDF-1.7 and then nothing"),
        ("plan.json", b"{"),
        ("plan.json", b'{"schema": "plan/9"}'),
    ]
    for name, content in bad:
        app.file_uploader[0].upload(name, content).run()

        assert not app.exception
        assert len(app.error) == 1
        assert app.error[0].value.endswith("\\.")
        assert session_of(app).work is before
        assert totals(app)["Price"] != "–"


def test_a_plan_json_is_opened_again(app: AppTest):
    plan = sketch_plan("Office 5 x 4 m")
    app.file_uploader[0].upload("plan.json", plan_text(plan).encode()).run()

    assert not app.error
    assert session_of(app).work.plan == evolve(plan, title="Plan")  # called after its file


def test_a_plan_without_a_scale_says_so_and_can_be_given_one(app: AppTest):
    plan = session_of(app).work.plan
    storeys = tuple(evolve(storey, scale=None) for storey in plan.storeys)
    rooms = tuple(evolve(room, outline=None, openings=(), furnishings=()) for room in plan.rooms)
    unscaled = evolve(plan, storeys=storeys, rooms=rooms)
    app.file_uploader[0].upload("plan.json", plan_text(unscaled).encode()).run()

    assert not app.exception
    assert totals(app)["Price"] == "–"
    assert "scale" in app.warning[0].value
    app.selectbox(key="scale-way").set_value("The floor area of all rooms").run()
    app.text_input(key="scale-total").set_value("100 m2").run()
    app.checkbox(key="scale-walls").uncheck().run()
    app.button(key="set-scale").click().run()
    assert totals(app)["Floor area"] == "100 m²"


def test_where_nothing_tells_the_scale_one_length_is_asked_for(app: AppTest):
    plan = session_of(app).work.plan
    storeys = tuple(evolve(storey, scale=None) for storey in plan.storeys)
    rooms = tuple(evolve(room, outline=None, openings=(), furnishings=()) for room in plan.rooms)
    app.file_uploader[0].upload(
        "plan.json", plan_text(evolve(plan, storeys=storeys, rooms=rooms)).encode()
    ).run()
    question = next(one for one in app.text_input if one.label.startswith("How long is"))
    before = plan.rooms[0].outline.area / plan.rooms[1].outline.area

    question.set_value("17 ft").run()
    app.button(key="answer").click().run()

    assert not app.exception
    assert not app.error
    sized = session_of(app).work.plan
    assert sized.is_scaled
    assert sized.rooms[0].outline.area / sized.rooms[1].outline.area == pytest.approx(before)
    assert not any(one.label.startswith("How long is") for one in app.text_input)


def test_several_files_are_storeys_each_shown_on_its_own_picture(app: AppTest):
    names = {"larkfield-family-home", "larkfield-orchard-bungalow"}
    files = [sample.picture for sample in samples() if sample.picture.stem in names]
    app.file_uploader[0].set_value(
        [(file.name, file.read_bytes(), "application/octet-stream") for file in files]
    ).run(timeout=60)
    work = session_of(app).work

    assert not app.error
    assert [storey.source.file for storey in work.plan.storeys] == [file.name for file in files]
    assert [page_of(storey, work.pages).file.name for storey in work.plan.storeys] == [
        file.name for file in files
    ]
    app.segmented_control[1].set_value("1").run()
    assert not app.exception
    app.button(key="remove-storey").click().run()
    assert not app.exception
    left = session_of(app).work.plan
    assert [storey.source.file for storey in left.storeys] == [files[0].name]
    assert "remove-storey" not in [button.key for button in app.button]


def test_a_picture_is_read_once_and_given_its_scale(app: AppTest):
    sample = next(one for one in samples() if one.picture.stem == "larkfield-family-home")
    app.file_uploader[0].upload(sample.picture.name, sample.picture.read_bytes()).run()
    session = session_of(app)

    assert not app.error
    assert [page.file.name for page in session.work.pages] == [sample.picture.name]
    room = max(session.work.plan.rooms, key=lambda room: room.outline_px.area)
    app.selectbox(key="scale-way").set_value("The floor area of a room").run()
    app.selectbox(key="scale-room").set_value(room.id)
    app.text_input(key="scale-area").set_value("255 sq ft").run()
    app.button(key="set-scale").click().run()
    assert not app.error
    assert session.work.plan.room(room.id).outline.area == pytest.approx(255 * 0.3048**2)


def test_a_length_that_cannot_be_read_leaves_the_scale_alone(app: AppTest):
    before = session_of(app).work
    app.text_input(key="scale-length").set_value("a fair bit").run()
    app.button(key="set-scale").click().run()

    assert len(app.error) == 1
    assert session_of(app).work is before


def test_undo_and_redo_go_through_everything_made(app: AppTest):
    opened = totals(app)
    app.text_area(key="words").set_value("Office 5 x 4 m")
    app.button(key="lay-out").click().run()
    typed = totals(app)
    app.button(key="undo").click().run()
    undone = totals(app)
    app.button(key="redo").click().run()

    assert typed != opened
    assert undone == opened
    assert totals(app) == typed


def test_marks_in_names_are_shown_and_never_run(app: AppTest):
    plan = evolve(sketch_plan("Office 5 x 4 m"), title="<script>alert(1)</script> **bold**")
    data = json.loads(plan_text(plan))
    app.file_uploader[0].upload("plan.json", json.dumps(data).encode()).run()

    assert not app.exception
    assert "\\<script\\>" in app.header[0].value
    assert "\\*\\*bold" in app.header[0].value


def test_a_stronger_solution_takes_more_tablets(opened_at: Callable[[str], AppTest]):
    app = opened_at("solution")
    before = quote_of(app)
    field = next(one for one in app.number_input if "General surfaces" in one.label)
    field.set_value(2000.0).run()
    after = quote_of(app)

    def tablets(quote):
        return sum(mix.tablets for mix in quote.solution.mixes)

    assert not app.exception
    assert tablets(after) > tablets(before)
    assert "2,000 ppm" in [metric.value for metric in app.metric]


def test_one_person_alone_takes_longer_than_two(opened_at: Callable[[str], AppTest]):
    app = opened_at("visit")
    before = quote_of(app)
    next(one for one in app.number_input if one.label == "People on site").set_value(1).run()
    after = quote_of(app)

    assert (before.timetable.crew, after.timetable.crew) == (2, 1)
    assert after.timetable.on_site > before.timetable.on_site


def test_leaving_the_floors_out_treats_less(opened_at: Callable[[str], AppTest]):
    app = opened_at("surfaces")
    before = quote_of(app)
    parts = app.pills[0]
    parts.set_value([part for part in parts.value if part != "floors"]).run()
    after = quote_of(app)

    assert not app.exception
    assert after.schedule.treated < before.schedule.treated


def test_a_discount_lowers_the_price(opened_at: Callable[[str], AppTest]):
    app = opened_at("quote")
    before = totals(app)["Price"]
    next(one for one in app.number_input if one.label == "Discount, %").set_value(10.0).run()

    assert not app.exception
    assert totals(app)["Price"] != before


def test_each_storey_of_a_house_is_shown_with_its_own_scale(app: AppTest):
    plan = session_of(app).work.plan
    house = stacked([plan, sketch_plan("Attic 5 x 4 m")])
    app.file_uploader[0].upload("plan.json", plan_text(house).encode()).run()
    below = [line.value for line in app.caption]
    app.segmented_control[1].set_value("1").run()

    assert not app.exception
    assert any(line.startswith("Scale") for line in below)
    assert not any(line.value.startswith("Scale") for line in app.caption)
