import re
from collections.abc import Callable
from decimal import Decimal

import pytest
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest

from estimator.price.build_up import LineKind
from estimator.quantities.shown_money import shown_money
from estimator.quote.quote import Quote

SCREENS = ("plan", "surfaces", "solution", "visit", "quote")


def on_the_page(app: AppTest) -> str:
    """Return all that was sent to the browser for the page, as text."""

    def sent(block) -> list[str]:
        is_style = getattr(block, "type", "") == "html"
        own = [] if is_style else [str(getattr(block, "proto", ""))]
        children = getattr(block, "children", {})
        return own + [text for child in children.values() for text in sent(child)]

    return "\n".join(sent(app._tree))


def costs_of(quote: Quote) -> list[str]:
    """Return every label and figure of the build-up that a client must not see."""
    price = quote.price
    lines = [*price.costs, *price.additions]
    told = {price.total.amount, quote.range.p10.amount, quote.range.p90.amount}
    figures = [line.amount.amount for line in lines] + [price.cost.amount, price.charge.amount]
    return [line.label for line in lines] + [
        f"{figure:,.2f}" for figure in figures if figure not in told
    ]


@pytest.fixture
def on_call(opened_at: Callable[[str], AppTest]) -> Callable[[str], AppTest]:
    def opened(screen: str) -> AppTest:
        app = opened_at(screen)
        return app.button(key="call-view").click().run()

    return opened


def test_the_desk_shows_costs_so_that_their_absence_means_something(
    opened_at: Callable[[str], AppTest],
):
    app = opened_at("quote")
    page = on_the_page(app)
    labels = [line.label for line in quote_of(app).price.costs]
    assert labels
    assert any(f"{line.amount}" in page for line in quote_of(app).price.additions) or any(
        label in page for label in labels
    )


@pytest.mark.parametrize("screen", SCREENS)
def test_no_cost_is_on_the_page_of_the_call_view(on_call: Callable[[str], AppTest], screen: str):
    app = on_call(screen)
    page = on_the_page(app)

    assert not app.exception
    assert [word for word in costs_of(quote_of(app)) if word in page] == []
    inside = r"overhead|mark-?up|margin|wage|labour|discount|per hour|digest|crew's pace|pace"
    assert re.findall(rf"\b(?:{inside})\b", page.lower()) == []


def test_the_call_view_shows_plan_scope_cautions_and_price(on_call: Callable[[str], AppTest]):
    app = on_call("plan")
    quote = quote_of(app)
    said = "\n".join(one.value for one in app.markdown).replace("\\", "")

    assert app.metric[0].value == shown_money(quote.price.total)
    assert f"{quote.range.p10.amount:,.0f} and {quote.range.p90.amount:,.0f}" in said
    assert "Spraying" in said
    assert [one.text for one in quote.cautions if one.text not in said] == []


def test_only_the_clients_paper_is_offered(on_call: Callable[[str], AppTest]):
    app = on_call("quote")
    offered = [one.proto.label for one in app.get("download_button")]
    assert offered == ["Quote · PDF"]


def test_no_other_screen_can_be_reached_and_the_way_back_is_not_told(
    on_call: Callable[[str], AppTest],
):
    app = on_call("quote")
    assert app.get("page_link") == []
    app.button(key="leave-call").click().run()
    assert len(app.get("page_link")) >= 5
    assert "view" not in app.query_params


def test_a_page_loaded_again_stays_in_the_call_view(app: AppTest):
    app.button(key="call-view").click().run()
    assert app.query_params["view"] == "call"
    again = AppTest.from_file(app._script_path, default_timeout=30)
    again.query_params["view"] = "call"
    again.run()
    assert session_of(again).on_call
    assert again.get("page_link") == []


def test_a_price_that_follows_only_later_gives_no_reason_away(on_call: Callable[[str], AppTest]):
    app = on_call("plan")
    session_of(app).set_job(discount=Decimal(7))
    app.run()
    assert not app.exception
    assert session_of(app).quote is None
    assert "discount" not in on_the_page(app).lower()


def test_an_answer_on_a_call_narrows_what_the_client_sees(app: AppTest):
    app.text_area(key="words").set_value("4 halls 10 x 8 m")
    app.button(key="lay-out").click().run()
    app.button(key="call-view").click().run()
    before = quote_of(app).range
    field = next(one for one in app.text_input if one.label.startswith("Ceiling height"))
    field.set_value("2.44 m").run()
    after = quote_of(app).range

    assert not app.error
    assert after.p90.amount - after.p10.amount < before.p90.amount - before.p10.amount
    session_of(app).undo()
    assert quote_of(app).range == before


def test_costs_are_back_at_the_desk(on_call: Callable[[str], AppTest]):
    app = on_call("quote")
    app.button(key="leave-call").click().run()
    kinds = {line.kind for line in quote_of(app).price.additions}
    assert LineKind.OVERHEAD in kinds
    assert "Overhead" in on_the_page(app)
