"""Compare: quotes side by side, why they differ, one site over time, all of them together."""

import streamlit as st

from estimator.errors import EstimatorError
from estimator.quantities.counted import counted
from estimator.web.compare.comparing import (
    chooser,
    document,
    every_measure,
    ranking,
    standing_out,
    together,
)
from estimator.web.compare.differing import course, differences
from estimator.web.heading import link, page_heading
from estimator.web.state import current
from estimator.web.wording import plain
from estimator.workflow.comparing import compared
from estimator.workflow.storing import store


def show() -> None:
    """Show the quotes that are chosen side by side."""
    page_heading("Compare", "Quotes side by side, and why two of them differ.")
    try:
        _show()
    except EstimatorError as error:
        st.error(plain(str(error)))


def _show() -> None:
    session, kept = current(), store()
    units = session.units
    chosen = chooser(kept)
    quotes = compared(kept, chosen)
    if len(quotes) < len(chosen):
        lost = counted(len(chosen) - len(quotes), "quote")
        st.warning(f"{lost} cannot be read any more and is left out.")
    if not quotes:
        st.markdown("Keep the quotes of two sites first; they are compared here.")
        link("sites", "Keep the work on the screen as one →")
        return
    together(quotes, units)
    left, right = st.columns([13, 7], gap="large")
    with left:
        st.subheader("Side by side")
        order = ranking(quotes, units)
    with right:
        standing_out(quotes, units)
    every_measure(quotes, order, units)
    document(session, kept, quotes)
    if len(quotes) > 1:
        st.subheader("Why two of them differ")
        differences(quotes, units)
    st.subheader("One site over time")
    course(kept, quotes, units)
