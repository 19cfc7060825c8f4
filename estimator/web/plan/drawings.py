"""Drawings of the plan, storey by storey."""

import streamlit as st

from estimator.documents.colouring import ColourBy
from estimator.documents.drawing import plan_svg
from estimator.plan.storey import Storey
from estimator.web.state import Session
from estimator.web.wording import told_apart


def chosen_storey(session: Session) -> Storey:
    """Offer the storeys where there are several, and return the one to show."""
    storeys = {str(storey.number): storey for storey in session.work.plan.storeys}
    if len(storeys) == 1:
        return session.work.plan.storeys[0]
    names = told_apart(
        {number: storey.name or f"Storey {storey.number + 1}" for number, storey in storeys.items()}
    )
    first = next(iter(storeys))
    chosen = st.segmented_control(
        "Storey",
        list(storeys),
        default=first,
        required=True,
        format_func=names.__getitem__,
        key=f"storey-{session.edition}",
        label_visibility="collapsed",
    )
    return storeys[chosen or first]


def show_storey(session: Session, number: int) -> None:
    """Show a storey where there are several; to be called before the storeys are offered."""
    if len(session.work.plan.storeys) > 1:
        st.session_state[f"storey-{session.edition}"] = str(number)


def plan_by_strength(session: Session, storey: Storey) -> None:
    """Show the rooms coloured by the strength of the solution they take."""
    _drawing(session, storey, ColourBy.STRENGTH)


def _drawing(session: Session, storey: Storey, by: ColourBy) -> None:
    plan, quote, units = session.work.plan, session.quote, session.units
    svg = session.once(
        ("svg", storey.number, units, by),
        lambda: plan_svg(plan, quote, units, storey.number, by=by),
    )
    with st.container(key="drawing"):
        st.image(svg, width="stretch", alt="The plan, room by room")
