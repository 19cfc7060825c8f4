from collections.abc import Callable

import pytest
import streamlit
from sessions import session_of
from streamlit.testing.v1 import AppTest
from streamlit.util import calc_hash

from estimator.errors import QuantityError
from estimator.plan.edits import renamed, with_use
from estimator.price.build_up import Price
from estimator.quantities import Units
from estimator.web.plan.rooms import (
    HEIGHT,
    NAME,
    PICKED,
    USE,
    corrected,
    table_key,
    take_corrections,
)
from estimator.web.state import Session
from estimator.workflow.sketching import sketch_plan

USES = {"Kitchen": "kitchen", "Office": "office"}


def type_into(app: AppTest, rows: dict[int, dict[str, object]]) -> AppTest:
    """Type into cells of the room table, as the browser reports it."""
    key = table_key(session_of(app))
    app.session_state[key] = {"edited_rows": rows, "added_rows": [], "deleted_rows": []}
    return app.run()


def price_of(session: Session) -> Price:
    assert session.quote is not None
    return session.quote.price


def price(app: AppTest) -> str:
    return next(metric.value for metric in app.metric if metric.label == "Price")


@pytest.mark.parametrize(
    ("text", "units", "metres"),
    [
        ("2.7", Units.METRIC, 2.7),
        ("9", Units.US, 2.7432),
        ("8' 6\"", Units.METRIC, 2.5908),
        ("270 cm", Units.US, 2.7),
    ],
)
def test_a_height_is_read_in_any_spelling(text: str, units: Units, metres: float):
    plan = sketch_plan("Office 5 x 4 m")
    room = plan.rooms[0].id

    after = corrected(plan, room, {HEIGHT: text}, USES, units)
    assert after.room(room).ceiling_height == pytest.approx(metres)


@pytest.mark.parametrize("text", ["0", "tall", "-3 m", "900 m", "3 kg"])
def test_a_height_that_cannot_be_is_refused(text: str):
    plan = sketch_plan("Office 5 x 4 m")

    with pytest.raises(QuantityError):
        corrected(plan, plan.rooms[0].id, {HEIGHT: text}, USES, Units.METRIC)


def test_an_empty_height_is_the_usual_one_again():
    plan = sketch_plan("Office 5 x 4 m, ceilings 3 m")
    room = plan.rooms[0].id

    assert corrected(plan, room, {HEIGHT: ""}, USES, Units.METRIC).room(room).ceiling_height is None


def test_name_and_use_are_corrected_together():
    plan = sketch_plan("Office 5 x 4 m")
    room = plan.rooms[0].id

    after = corrected(plan, room, {NAME: " Tea room ", USE: "Kitchen"}, USES, Units.METRIC)
    assert (after.room(room).name, after.room(room).use) == ("Tea room", "kitchen")


@pytest.fixture
def typed(monkeypatch: pytest.MonkeyPatch) -> Callable[[Session, dict[int, dict[str, str]]], None]:
    """Type into cells of the room table; AppTest cannot make the table report it."""
    state: dict[str, object] = {}
    monkeypatch.setattr(streamlit, "session_state", state)

    def report(session: Session, rows: dict[int, dict[str, str]]) -> None:
        state["table"] = {"edited_rows": rows}
        take_corrections(session, "table")

    return report


def test_cells_typed_one_after_the_other_change_the_totals_at_once(app: AppTest, typed):
    session = session_of(app)
    first = price_of(session)
    typed(session, {0: {HEIGHT: "4 m"}})
    higher = price_of(session)
    typed(session, {0: {HEIGHT: "4 m"}, 1: {NAME: "Canteen"}})

    assert higher.total.amount > first.total.amount
    assert price_of(session) == higher
    rooms = session.work.plan.rooms
    assert (rooms[0].ceiling_height, rooms[1].name) == (4.0, "Canteen")
    session.undo()
    assert session.work.plan.rooms[0].ceiling_height == 4.0
    session.undo()
    assert price_of(session) == first


def test_a_bad_height_is_refused_in_one_sentence_and_all_else_is_kept(app: AppTest, typed):
    session = session_of(app)
    typed(session, {0: {NAME: "Parlour"}})
    before, edition = session.work, session.edition
    typed(session, {0: {NAME: "Parlour", HEIGHT: "tall"}})

    assert session.problem == "“tall”: it is no length; write it like 3.45 m, 345 cm or 12' 6\"."
    assert session.work is before
    assert session.work.plan.rooms[0].name == "Parlour"
    assert session.edition > edition  # the table shows the old height again


def test_a_room_deleted_comes_back_by_undo(app: AppTest):
    whole = session_of(app).work.plan
    first = price(app)
    type_into(app, {1: {PICKED: True}})
    app.button(key="delete-rooms").click().run()
    fewer = session_of(app).work.plan
    app.button(key="undo").click().run()

    assert [room.id for room in fewer.rooms] == [
        room.id for at, room in enumerate(whole.rooms) if at != 1
    ]
    assert session_of(app).work.plan == whole
    assert price(app) == first


def test_two_rooms_become_one(app: AppTest):
    whole = session_of(app).work.plan
    names = [room.name for room in whole.rooms]
    pair = {names.index("Bedroom 2"): {PICKED: True}, names.index("Bathroom"): {PICKED: True}}
    type_into(app, pair)
    app.button(key="merge-rooms").click().run()

    assert not app.error
    merged = [room.name for room in session_of(app).work.plan.rooms]
    assert merged == [name for name in names if name != "Bathroom"]


def test_rooms_far_apart_are_not_merged(app: AppTest):
    before = session_of(app).work
    names = [room.name for room in before.plan.rooms]
    type_into(app, {names.index("WC"): {PICKED: True}, names.index("Bedroom 1"): {PICKED: True}})
    app.button(key="merge-rooms").click().run()

    assert len(app.error) == 1
    assert session_of(app).work is before


def test_the_table_shows_corrections_after_a_look_at_another_screen(app: AppTest):
    session = session_of(app)
    session.correct(lambda plan: renamed(plan, plan.rooms[0].id, "Parlour"), anew=False)
    for screen in ("surfaces", ""):
        app._page_hash = calc_hash(screen)
        app.run()

    assert not app.exception
    assert app.data_editor[0].value[NAME][0] == "Parlour"


def test_a_use_the_book_does_not_know_is_said_and_can_be_corrected(app: AppTest):
    session = session_of(app)
    session.correct(lambda plan: with_use(plan, plan.rooms[0].id, "orangery"))
    app.run()

    assert not app.exception
    assert "orangery" in app.warning[0].value
    assert app.data_editor[0].value[USE][0] == "orangery"
    session.correct(lambda plan: with_use(plan, plan.rooms[0].id, "kitchen"))
    app.run()
    assert not app.warning
