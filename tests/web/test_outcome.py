"""The crew writes down what a visit took; the estimator sees it and takes it over into the book."""

import pytest
from attrs import evolve
from streamlit.testing.v1 import AppTest

from estimator.quantities import Units
from estimator.quantities.shown import figures as figured
from estimator.store.values import KeptOutcome, Site, Status
from estimator.workflow.measuring import standard_book
from estimator.workflow.offers import figures_kept, keep_quote
from estimator.workflow.outcomes import Written, outcome_of
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.storing import store
from estimator.workflow.work import Work


def keep(name="Old Mill"):
    book = standard_book()
    plan = evolve(sketch_plan("Shop 12 x 20 m, 2 offices 5 x 6 m"), title=name)
    work = Work(plan=plan, book=book, job=usual_job(book))
    quote = estimate(plan, book=book, job=work.job, date="2026-11-25")
    site = store().sites.save(Site(name=name), after=0)
    key = keep_quote(store(), work, quote, site=site.id)
    store().quotes.set_status(key, Status.ACCEPTED)
    return key, figures_kept(store(), [key])[key]


def visited(key, figures, *, slower=1.0, day="2026-12-01"):
    written = {
        room.room: Written(
            volume=1000 * room.volume, minutes=slower * room.spray / 60, passes=room.passes
        )
        for room in figures.rooms
    }
    outcome = outcome_of(
        figures,
        written,
        Units.METRIC,
        visited=day,
        crew=2,
        minutes=slower * figures.work.on_site / 60,
        note="",
    )
    return store().outcomes.save(KeptOutcome(key=key, outcome=outcome), after=0)


def numbers(app: AppTest, label: str):
    return [one for one in app.number_input if one.label == label]


def button(app: AppTest, label: str):
    return next(one for one in app.button if one.label == label)


def plainly(shown) -> list[str]:
    return [one.value.replace("\\", "") for one in shown]


def other_side(app: AppTest) -> AppTest:
    app.button_group(key="outcome-side").set_value("Estimate and actual").run()
    return app


def test_without_a_quote_the_page_says_what_to_do(opened_at):
    app = opened_at("outcome")
    assert "Keep a quote first; what its visit took is written down here." in plainly(app.markdown)
    assert "No visit was written down yet." in plainly(other_side(app).markdown)
    assert not app.exception


def test_what_was_planned_stands_beside_each_field(opened_at):
    _, figures = keep()
    app = opened_at("outcome")
    first = figures.rooms[0]
    assert len(numbers(app, "L sprayed")) == len(figures.rooms)
    assert numbers(app, "L sprayed")[0].placeholder == figured(1000 * first.volume)
    assert any(first.name in text and "planned" in text for text in plainly(app.markdown))


def test_what_the_crew_writes_is_kept_and_can_be_corrected(opened_at):
    key, figures = keep()
    app = opened_at("outcome")
    numbers(app, "Minutes on site")[0].set_value(95.0)
    numbers(app, "L sprayed")[0].set_value(2.5)
    numbers(app, "Minutes")[0].set_value(7.0)
    button(app, "Save what it took").click().run()

    assert plainly(app.success) == ["Saved."]
    (kept,) = store().outcomes.of(key.quote)
    (row,) = kept.outcome.rows
    assert (row.room, row.volume, row.time) == (figures.rooms[0].room, 0.0025, 420)
    assert kept.outcome.on_site == 95 * 60

    which = next(one for one in app.selectbox if one.label == "Which")
    assert which.value == kept.id, "so that a second tap on the button saves no second visit"
    assert numbers(app, "L sprayed")[0].value == 2.5
    numbers(app, "L sprayed")[0].set_value(2.0)
    button(app, "Save what it took").click().run()
    (corrected,) = store().outcomes.of(key.quote)
    assert corrected.outcome.rows[0].volume == 0.002
    assert not app.exception


def test_an_hour_written_for_a_minute_is_asked_about(opened_at):
    _, figures = keep()
    app = opened_at("outcome")
    numbers(app, "Minutes")[0].set_value(figures.rooms[0].spray)
    button(app, "Save what it took").click().run()
    (said,) = plainly(app.success)
    assert f"please look again: {figures.rooms[0].name}: spraying." in said


def test_an_empty_visit_is_refused_in_one_sentence(opened_at):
    key, _ = keep()
    app = opened_at("outcome")
    button(app, "Save what it took").click().run()
    (said,) = plainly(app.error)
    assert said.startswith("the visit: nothing was written down; give the minutes on site")
    assert store().outcomes.of(key.quote) == ()


def test_preparing_and_wiping_are_asked_for_only_when_wanted(opened_at):
    keep()
    app = opened_at("outcome")
    assert not numbers(app, "Preparing, min")
    app.toggle[0].set_value(True).run()
    assert len(numbers(app, "Preparing, min")) == 3


def test_the_table_of_the_work_sheet_fills_the_fields(opened_at):
    _, figures = keep()
    app = opened_at("outcome")
    first = figures.rooms[0]
    rows = [
        "what,field,value",
        f'"1 {first.name}","really sprayed","7.5 L"',
        f'"1 {first.name}","minutes it took","21"',
        '"visit","people","3"',
    ]
    app.file_uploader[0].set_value(("sheet.csv", "\r\n".join(rows).encode(), "text/csv")).run()
    assert numbers(app, "L sprayed")[0].value == pytest.approx(7.5)
    assert numbers(app, "Minutes")[0].value == 21
    assert numbers(app, "People")[0].value == 3
    assert not app.exception


def test_another_file_than_that_of_a_work_sheet_is_refused_in_one_sentence(opened_at):
    keep()
    app = opened_at("outcome")
    app.file_uploader[0].set_value(("sheet.csv", b"a,b\n1,2\n", "text/csv")).run()
    (said,) = plainly(app.error)
    assert said.startswith("the table: it was not saved by a work sheet; save what was used")
    assert not app.exception


@pytest.fixture
def learning(opened_at):
    """The estimator's side after six slow visits, one of them with a slip of the pen."""
    key, figures = keep()
    for day in range(1, 7):
        visited(key, figures, slower=1.5, day=f"2026-12-0{day}")
    slip = visited(key, figures, day="2026-12-07")
    first, *others = slip.outcome.rows
    rows = (evolve(first, time=60 * first.time), *others)
    store().outcomes.save(evolve(slip, outcome=evolve(slip.outcome, rows=rows)), after=slip.version)
    return other_side(opened_at("outcome"))


def test_the_estimator_sees_how_often_the_range_held(learning):
    shown = {one.label: one.value for one in learning.metric}
    assert shown["Visits"] == "7"
    assert shown["Between P10 and P90"].endswith(" of 7")
    assert any("Wilson's interval" in text for text in plainly(learning.markdown))
    assert not learning.exception


def test_a_slip_of_the_pen_is_named(learning):
    assert any("far from the rest" in text for text in plainly(learning.caption))


def test_the_change_is_offered_and_only_taken_over_when_asked_to(learning):
    before = standard_book()
    said = next(text for text in plainly(learning.markdown) if "Spraying takes" in text)
    assert "more time than the book says" in said
    assert standard_book() == before

    button(learning, "Take this over into the book").click().run()
    assert "The book has learned from 7 visits" in plainly(learning.success)[0]
    after = standard_book()
    assert after.paces[0].spray < before.paces[0].spray
    assert any("since the book last learned" in text for text in plainly(learning.markdown))
    assert not learning.exception


def test_what_the_change_does_to_open_quotes_is_shown_when_asked_for(learning):
    key, _ = keep("Open site")
    store().quotes.set_status(key, Status.SENT)
    button(learning, "Show what this does to open quotes").click().run()
    shown = next(one.value for one in learning.dataframe if "As quoted" in one.value)
    assert list(shown["Quote"]) == ["Open site"]
    assert not learning.exception
