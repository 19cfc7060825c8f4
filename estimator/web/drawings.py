"""Drawings of the plan: over the picture it was read from, or drawn anew."""

import streamlit as st

from estimator.documents.colouring import ColourBy
from estimator.documents.drawing import plan_svg
from estimator.documents.overlay import overlay_png
from estimator.errors import EstimatorError
from estimator.plan.storey import Storey
from estimator.web.state import Session
from estimator.web.wording import plain, told_apart
from estimator.workflow.pages import Page, page_of

_OVER, _DRAWN = "On the picture", "Drawn anew"


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


def plan_over_picture(session: Session, storey: Storey) -> None:
    """Show the rooms over the picture they were read from, or drawn anew where there is none."""
    page = page_of(storey, session.work.pages)
    if page is None:
        _drawing(session, storey, ColourBy.USE)
        return
    chosen = st.segmented_control(
        "Drawing",
        [_OVER, _DRAWN],
        default=_OVER,
        required=True,
        key="drawing-kind",
        label_visibility="collapsed",
    )
    if chosen == _DRAWN:
        _drawing(session, storey, ColourBy.USE)
        return
    try:
        png = session.once(("overlay", storey.number), lambda: _overlay(session, page, storey))
    except EstimatorError as error:
        st.error(plain(str(error)))
        return
    with st.container(key="drawing"):
        st.image(png, width="stretch", alt="The rooms over the picture they were read from")


def plan_by_strength(session: Session, storey: Storey) -> None:
    """Show the rooms coloured by the strength of the solution they take."""
    _drawing(session, storey, ColourBy.STRENGTH)


def _overlay(session: Session, page: Page, storey: Storey) -> bytes:
    return overlay_png(page.picture().pixels, session.work.plan, storey.number)


def _drawing(session: Session, storey: Storey, by: ColourBy) -> None:
    plan, quote, units = session.work.plan, session.quote, session.units
    svg = session.once(
        ("svg", storey.number, units, by),
        lambda: plan_svg(plan, quote, units, storey.number, by=by),
    )
    with st.container(key="drawing"):
        st.image(svg, width="stretch", alt="The plan, room by room")
