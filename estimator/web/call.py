"""The call view: what a client may see, and nothing else on the page."""

import streamlit as st

from estimator.documents.wording import assumed_words, scope_words
from estimator.quantities import shown_area, shown_duration, shown_volume
from estimator.quantities.counted import counted
from estimator.quantities.shown_money import shown_money
from estimator.quote.quote import Quote
from estimator.web.asking import ask_next, asked
from estimator.web.plan.drawings import chosen_storey
from estimator.web.plan.sketching import sketch_line
from estimator.web.quote.downloads import client_quote
from estimator.web.state import Session
from estimator.web.table.table import drawing_table
from estimator.web.wording import plain

VIEW = "view"
"""The parameter of the address that keeps a page that is loaded again in this view."""

_CALL = "call"


def follow_address(session: Session) -> None:
    """Begin in the call view where the address says so, and keep the address true."""
    if "call-followed" not in st.session_state:
        st.session_state["call-followed"] = True
        session.on_call = st.query_params.get(VIEW) == _CALL
    if session.on_call and st.query_params.get(VIEW) != _CALL:
        st.query_params[VIEW] = _CALL
    elif not session.on_call and VIEW in st.query_params:
        del st.query_params[VIEW]


def call_switch(session: Session) -> None:
    """Offer to turn the screen into what a client may see."""
    st.button(
        "Call view",
        icon=":material/co_present:",
        key="call-view",
        on_click=_switch,
        args=(session, True),
        help="Shows the plan, what is treated, cautions and the price, and takes all else away.",
    )


def call_view(session: Session) -> None:
    """Show the plan, what is treated, what to heed, and the price."""
    quote = session.quote
    with st.container(key="call"):
        st.header(plain(session.work.plan.title or "Your site"), anchor=False)
        drawing, price = st.columns([11, 7], gap="large")
        with drawing:
            storey = chosen_storey(session)
            drawing_table(session, storey)
            sketch_line(session, storey)
        with price:
            if quote:
                _price(session, quote)
            else:
                st.markdown("The price follows when the plan is complete.")
        if quote:
            _terms(session, quote)
    with st.popover("⋯", key="call-menu"):
        st.button("Back to the desk", key="leave-call", on_click=_switch, args=(session, False))


def _price(session: Session, quote: Quote) -> None:
    units, total = session.units, quote.price.total
    with st.container(key="call-price"):
        st.metric("Price, tax included", shown_money(total), width="content")
        low, high = quote.range.p10, quote.range.p90
        st.markdown(f"Likely between {low.amount:,.0f} and {high.amount:,.0f} {low.currency}")
    with st.container(key="call-figures", horizontal=True, gap="medium"):
        for label, value in (
            ("Floor area", shown_area(quote.schedule.floor_area, units)),
            ("Surface treated", shown_area(quote.schedule.treated, units)),
            ("Solution sprayed", shown_volume(quote.solution.volume, units)),
            ("Time on site", shown_duration(quote.timetable.on_site)),
        ):
            st.metric(label, value, width="content")
    if questions := asked(quote, of_the_site=True):
        st.subheader("What would make it surer")
        ask_next(session, questions)
    client_quote(session, quote)


def _terms(session: Session, quote: Quote) -> None:
    scope, heed = st.columns(2, gap="large")
    with scope:
        st.subheader("What is treated")
        st.markdown(plain(scope_words(quote, session.units)))
        if assumed := assumed_words(quote, session.units):
            with st.expander(f"{counted(len(assumed), 'assumption')} behind it"):
                st.markdown("\n".join(f"- {plain(says)}" for says in assumed))
    with heed:
        st.subheader("Please observe")
        with st.container(key="cautions-call"):
            said = [*quote.solution.unconfirmed, *(caution.text for caution in quote.cautions)]
            st.markdown("\n".join(f"- {plain(text)}" for text in said))


def _switch(session: Session, on_call: bool) -> None:
    session.on_call = on_call
