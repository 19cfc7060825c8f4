"""The review list: what to look at first, each entry choosing its room."""

import streamlit as st

from estimator.plan.doubt import Aspect
from estimator.plan.review import Check, review
from estimator.web.plan.drawings import show_storey
from estimator.web.state import Session
from estimator.web.wording import plain

MOST_SHOWN = 5
"""More than these nobody reads at a glance."""


def review_list(session: Session) -> None:
    """Show what to look at first; the scale is asked about in its own place."""
    checks = [check for check in review(session.work.plan) if check.aspect is not Aspect.SCALE]
    if not checks:
        return
    with st.container(key="review", gap=None):
        st.caption("Look at first")
        for at, check in enumerate(checks[:MOST_SHOWN]):
            _entry(session, at, check)
        if len(checks) > MOST_SHOWN:
            st.caption(f"and {len(checks) - MOST_SHOWN} more of less weight")


def _entry(session: Session, at: int, check: Check) -> None:
    if check.room is None:
        st.markdown(plain(session.in_units(check.says)))
        return
    room = check.room

    def choose() -> None:
        show_storey(session, check.storey)
        session.choose([room])

    st.button(
        plain(session.in_units(check.says)),
        key=f"review-{at}",
        type="tertiary",
        icon=":material/check_circle:" if room in session.chosen else ":material/search:",
        on_click=choose,
    )
