"""Drawings of the plan: over its picture, or coloured by strength."""

import streamlit as st

from estimator.documents.drawing import plan_svg
from estimator.web.state import Session


def plan_drawing(session: Session, *, over_picture: bool = False) -> None:
    """Show the rooms of a storey, over the picture they were read from where there is one."""
    storey = _storey(session)
    with st.container(key="drawing"):
        st.image(_svg(session, storey), width="stretch", alt="The plan, room by room")


def _svg(session: Session, storey: int) -> str:
    units, quote = session.units, session.quote
    return session.once(
        ("svg", storey, units), lambda: plan_svg(session.work.plan, quote, units, storey)
    )


def _storey(session: Session) -> int:
    storeys = session.work.plan.storeys
    if len(storeys) == 1:
        return storeys[0].number
    names = {storey.number: storey.name or f"Storey {storey.number}" for storey in storeys}
    chosen = st.segmented_control(
        "Storey",
        list(names),
        default=storeys[0].number,
        required=True,
        format_func=names.__getitem__,
        key=f"storey-{session.edition}",
        label_visibility="collapsed",
    )
    return chosen if chosen is not None else storeys[0].number
