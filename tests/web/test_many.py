import time
from collections.abc import Callable

import pytest
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest

from estimator.batch.background import background
from estimator.batch.kept import KeptBatch, keep_batch, kept_batches
from estimator.workflow.measuring import standard_book
from estimator.workflow.pages import File
from estimator.workflow.quoting import usual_job

Opened = Callable[[str], AppTest]


@pytest.fixture
def kept() -> KeptBatch:
    """A batch of two sites and one file without a plan, not begun yet."""
    texts = {"school.txt": "2 classrooms 9 x 7 m", "shop.txt": "shop 5 x 4 m", "x.txt": "ballroom"}
    files = [File(name=name, content=text.encode()) for name, text in texts.items()]
    return keep_batch(files, standard_book(), usual_job(standard_book()))


def done(app: AppTest, kept: KeptBatch) -> AppTest:
    """Let a batch come to its end and look again."""
    while background().is_running(kept):
        time.sleep(0.01)
    return app.run()


def test_before_anything_is_given_there_is_nothing_to_begin(opened_at: Opened):
    app = opened_at("many")
    assert app.button(key="many-begin").disabled
    assert not app.exception


def test_a_batch_that_ended_with_the_app_goes_on_by_itself(opened_at: Opened, kept: KeptBatch):
    app = done(opened_at("many"), kept)

    table = app.dataframe[0].value
    assert list(table["Plan"]) == ["school.txt", "shop.txt"]
    assert list(table["Floor"]) == ["126 m²", "20 m²"]
    assert any("ballroom" in markdown.value for markdown in app.markdown)
    assert any("what the label must still confirm" in one.value for one in app.caption)
    assert not app.exception


def test_a_stopped_batch_waits_until_somebody_lets_it_go_on(opened_at: Opened, kept: KeptBatch):
    kept.set_stopped(True)
    app = opened_at("many")
    assert not background().is_running(kept)
    app.button(key="many-go-on").click().run()
    assert len(done(app, kept).dataframe[0].value) == 2


def test_one_plan_is_opened_at_the_price_of_its_row(opened_at: Opened, kept: KeptBatch):
    app = done(opened_at("many"), kept)
    app.selectbox(key=f"many-open-{kept.folder.name}").set_value("school.txt").run()
    app.button(key="many-open").click().run()

    assert session_of(app).work.plan.title == "School"
    assert quote_of(app).price.total == kept.rows[0].price
    assert not app.exception


def test_chosen_samples_are_worked_out_with_the_choices_of_the_present_work(opened_at: Opened):
    app = opened_at("many")
    session_of(app).set_job(crew=4)
    app.run()
    chosen = app.multiselect[0]
    chosen.set_value(["larkfield-riverside-flat.png"]).run()
    app.button(key="many-begin").click().run()

    (name,) = app.selectbox(key="many-batch").options
    assert "1 plan" in name
    (kept,) = kept_batches()
    assert kept.basis().job.crew == 4
    app = done(app, kept)
    assert len(app.dataframe[0].value) == 1
    app.button(key="many-remove").click().run()
    assert kept_batches() == ()
    assert not app.exception
