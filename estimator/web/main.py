"""The frame around every screen: name of the site, steps, totals, the screen, the next step.

The steps are the work on one site. Beside them stands the office: what is not about one site.
"""

import streamlit as st
from streamlit.navigation.page import StreamlitPage

from estimator.quantities import Units
from estimator.web.call import call_switch, call_view, follow_address
from estimator.web.heading import know
from estimator.web.keeping import bring_back, keep, keeping_notes
from estimator.web.screens import (
    compare,
    firm,
    many,
    outcome,
    plan,
    quote,
    rates,
    sites,
    solution,
    surfaces,
    visit,
)
from estimator.web.state import Session, current, switch_units
from estimator.web.theme import ICON, STYLE_SHEET
from estimator.web.totals import totals_strip
from estimator.web.wording import plain
from estimator.workflow.firm_book import usable_book

_UNIT_NAMES = {Units.METRIC: "Metric", Units.US: "US"}


def run() -> None:
    """Run the app once, as Streamlit does after every action of the user."""
    st.set_page_config(page_title="Estimator", page_icon=str(ICON), layout="wide")
    st.html(STYLE_SHEET)
    steps = (
        st.Page(plan.show, title="Plan", url_path="plan", default=True),
        st.Page(surfaces.show, title="Surfaces", url_path="surfaces"),
        st.Page(solution.show, title="Solution", url_path="solution"),
        st.Page(visit.show, title="Visit", url_path="visit"),
        st.Page(quote.show, title="Quote", url_path="quote"),
    )
    office = (
        st.Page(sites.show, title="Sites", url_path="sites"),
        st.Page(compare.show, title="Compare", url_path="compare"),
        st.Page(outcome.show, title="Outcomes", url_path="outcome"),
        st.Page(rates.show, title="Rates", url_path="rates"),
        st.Page(firm.show, title="Firm", url_path="firm"),
        st.Page(many.show, title="Many plans", url_path="many"),
    )
    know([*steps, *office])
    screen = st.navigation([*steps, *office], position="hidden")
    bring_back()
    session = current()
    keep(session)
    follow_address(session)
    if session.on_call:
        call_view(session)
        return
    _office(screen, office)
    _head(session, screen, steps)
    if screen in steps:
        totals_strip(session)
    # What comes and goes here moves nothing below: a field that moved would lose the focus.
    with st.container(key="notes"):
        keeping_notes(session)
        if screen in steps and not session.quote:
            st.warning(plain(session.why_no_quote))
        _book_note(session)
        if session.problem:
            st.error(plain(session.problem))
            session.problem = ""
    screen.run()
    _next(screen, steps)


def _book_note(session: Session) -> None:
    """Say what is wrong with the firm's book, until it is mended."""
    if session.book_problem:
        _, session.book_problem = usable_book()
    if session.book_problem:
        st.warning(plain(session.book_problem))


def _office(screen: StreamlitPage, office: tuple[StreamlitPage, ...]) -> None:
    with st.container(key="office", horizontal=True, gap=None):
        for page in office:
            place = "office-here" if page is screen else f"office-{page.title}"
            with st.container(key=place, width="content"):
                st.page_link(page)


def _head(session: Session, screen: StreamlitPage, steps: tuple[StreamlitPage, ...]) -> None:
    with st.container(
        key="head", horizontal=True, vertical_alignment="center", horizontal_alignment="distribute"
    ):
        with st.container(key="site", width="content"):
            st.header(plain(session.work.plan.title or "Untitled site"), anchor=False)
        with st.container(key="steps", horizontal=True, gap="xxsmall", width="content"):
            for step in steps:
                place = "step-here" if step is screen else f"step-{step.title}"
                with st.container(key=place, width="content"):
                    st.page_link(step)
        with st.container(key="switches", horizontal=True, width="content", gap="small"):
            call_switch(session)
            _units_switch(session)


def _units_switch(session: Session) -> None:
    chosen = st.segmented_control(
        "Units",
        list(_UNIT_NAMES),
        default=session.units,
        required=True,
        format_func=_UNIT_NAMES.__getitem__,
        key="units",
        label_visibility="collapsed",
    )
    if chosen and chosen is not session.units:
        switch_units(chosen)
        st.rerun()


def _next(screen: StreamlitPage, steps: tuple[StreamlitPage, ...]) -> None:
    following = steps[steps.index(screen) + 1 :] if screen in steps else ()
    if following:
        with st.container(key="next", horizontal=True, horizontal_alignment="right"):
            st.page_link(following[0], label=f"Next: {following[0].title.lower()} →")
