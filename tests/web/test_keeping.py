from pathlib import Path

import pytest
from attrs import evolve
from sessions import session_of
from streamlit.testing.v1 import AppTest

from estimator.plan.edits import renamed
from estimator.workflow.jobs import jobs

APP = Path(__file__).parents[2] / "app.py"


def tab(job: str = "") -> AppTest:
    """Open the app in a tab of its own, at a job where one is named."""
    app = AppTest.from_file(str(APP), default_timeout=30)
    if job:
        app.query_params["job"] = job
    return app.run()


def retitled(app: AppTest, title: str) -> AppTest:
    session_of(app).correct(lambda plan: evolve(plan, title=title))
    return app.run()


def test_a_sample_that_was_only_looked_at_is_not_kept(app: AppTest):
    assert session_of(app).job == ""
    assert jobs().recent() == ()


def test_a_page_loaded_again_goes_on_to_the_last_stroke_with_steps_back():
    one = retitled(retitled(tab(), "First"), "Second")
    again = tab(session_of(one).job)

    assert session_of(again).work.plan == session_of(one).work.plan
    assert session_of(again).work.pages == session_of(one).work.pages
    session_of(again).undo()
    again.run()
    assert session_of(again).work.plan.title == "First"
    assert session_of(again).can_redo


def test_what_is_undone_can_be_made_again_after_the_page_was_loaded_again():
    one = retitled(tab(), "First")
    session_of(one).undo()
    one.run()
    again = tab(session_of(one).job)

    assert session_of(again).work.plan.title != "First"
    session_of(again).redo()
    assert session_of(again).work.plan.title == "First"


def test_two_tabs_on_one_job_do_not_overwrite_each_other():
    one = retitled(tab(), "Start")
    job = session_of(one).job
    other = tab(job)
    retitled(other, "Theirs")
    retitled(one, "Mine")

    assert "changed in another tab" in one.warning[0].value
    assert jobs().load(job).history.now.plan.title == "Theirs"
    mine = session_of(one).job
    assert mine != job
    assert jobs().load(mine).history.now.plan.title == "Mine"

    one.button(key="show-other").click().run()
    assert not one.warning
    assert session_of(one).work.plan.title == "Theirs"
    assert session_of(one).job == job


def test_one_may_go_on_with_ones_own_version():
    one = retitled(tab(), "Start")
    retitled(tab(session_of(one).job), "Theirs")
    retitled(one, "Mine")
    one.button(key="go-on").click().run()
    retitled(one, "Still mine")

    assert not one.warning
    assert jobs().load(session_of(one).job).history.now.plan.title == "Still mine"


def test_another_plan_is_another_job_and_the_first_can_be_opened_again(app: AppTest):
    retitled(app, "Orchard flat")
    first = session_of(app).job
    app.text_area(key="words").set_value("Office 5 x 4 m")
    app.button(key="lay-out").click().run()
    second = session_of(app).job

    assert second not in ("", first)
    recent = next(box for box in app.selectbox if box.label == "Jobs last worked on")
    assert recent.options[0].startswith("Orchard flat · 9 rooms · ")
    recent.set_value(first).run()
    assert session_of(app).work.plan.title == "Orchard flat"
    assert app.query_params["job"] == first


def test_an_address_that_names_no_job_is_said_so_and_the_app_opens():
    app = tab("../../etc")
    assert not app.exception
    assert "it names no job" in app.error[0].value
    assert session_of(app).job == ""


def test_work_that_cannot_be_kept_is_said_so_until_it_can(
    app: AppTest, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("DATABASE_URL", "no address")
    retitled(app, "Unlucky")
    assert not app.exception
    assert "not kept" in app.error[0].value
    assert session_of(app).work.plan.title == "Unlucky"
    monkeypatch.delenv("DATABASE_URL")
    app.run()
    assert not app.error
    assert jobs().load(session_of(app).job).history.now.plan.title == "Unlucky"


def test_marks_in_a_title_are_listed_as_typed(app: AppTest):
    session_of(app).correct(
        lambda plan: evolve(renamed(plan, plan.rooms[0].id, "<b>"), title="<script>x</script>")
    )
    app.run()
    again = tab(session_of(app).job)
    assert not again.exception
    assert session_of(again).work.plan.rooms[0].name == "<b>"
