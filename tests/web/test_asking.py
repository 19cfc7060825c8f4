import pytest
from sessions import session_of
from streamlit.testing.v1 import AppTest

from estimator.web.asking import asked


@pytest.fixture
def typed(app: AppTest) -> AppTest:
    app.text_area(key="words").set_value("3 offices 8 x 6 m")
    return app.button(key="lay-out").click().run()


def said(app: AppTest) -> list[str]:
    return [one.value for one in app.markdown if "narrows the price" in one.value]


def test_questions_stand_beside_the_price_with_their_worth(typed: AppTest):
    quote = session_of(typed).quote
    assert quote is not None
    questions = asked(quote)
    assert 1 <= len(questions) <= 3
    assert len(said(typed)) == len(questions)
    assert (
        f"**{questions[0].says}** narrows the price by ± {questions[0].narrows.amount:,.0f}"
        in (said(typed)[0])
    )


def test_an_answer_is_one_step_and_narrows_the_range(typed: AppTest):
    session = session_of(typed)
    before, work = session.quote.range, session.work
    field = next(one for one in typed.text_input if one.label == "Pace of your crew")
    field.set_value("700 m²/h").run()

    assert not typed.error
    after = session.quote.range
    assert after.p90.amount - after.p10.amount < before.p90.amount - before.p10.amount
    assert not any("Pace of your crew" in one for one in said(typed))
    session.undo()
    assert session.work is work


def test_an_answer_that_is_none_is_one_sentence_and_changes_nothing(typed: AppTest):
    session = session_of(typed)
    work = session.work
    field = next(one for one in typed.text_input if one.label == "Pace of your crew")
    field.set_value("quickly").run()
    assert len(typed.error) == 1
    assert session.work is work
