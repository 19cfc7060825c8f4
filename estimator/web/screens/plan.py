"""Plan: open one, set its scale, correct its rooms."""

import streamlit as st
from attrs import evolve

from estimator.measures import Share
from estimator.plan.plan import Plan
from estimator.plan.storey import Storey
from estimator.web.drawings import chosen_storey, plan_over_picture
from estimator.web.opening import opening_panel, page_choice
from estimator.web.rooms import room_table
from estimator.web.scale import scale_panel
from estimator.web.state import Session, current
from estimator.web.wording import counted, plain

GUESSED_SCALE: Share = 0.05
"""A scale less sure than this is asked about."""


def show() -> None:
    """Show the plan with its corrections."""
    session = current()
    _tools(session)
    drawing, table = st.columns(2, gap="large")
    with drawing:
        page_choice(session)
        storey = chosen_storey(session)
        plan_over_picture(session, storey)
        _scale(storey)
    with table:
        _title(session)
        room_table(session)
        _doubts(session)


def _tools(session: Session) -> None:
    with st.container(key="tools", horizontal=True):
        with st.popover("Open a plan", icon=":material/folder_open:", key=f"open-{session.step}"):
            opening_panel(session)
        with st.popover(
            "Set the scale",
            icon=":material/straighten:",
            type="secondary" if _is_scaled(session.work.plan) else "primary",
            key=f"scale-{session.step}",
        ):
            scale_panel(session)
        st.button(
            "Undo",
            icon=":material/undo:",
            disabled=not session.can_undo,
            on_click=session.undo,
            key="undo",
        )
        st.button(
            "Redo",
            icon=":material/redo:",
            disabled=not session.can_redo,
            on_click=session.redo,
            key="redo",
        )


def _is_scaled(plan: Plan) -> bool:
    """Whether every picture of the plan has a scale that is more than a guess."""
    return all(
        storey.scale is not None and storey.scale.relative_error <= GUESSED_SCALE
        for storey in plan.storeys
        if storey.source is not None
    )


def _title(session: Session) -> None:
    key = f"title-{session.edition}"

    def retitle() -> None:
        title = st.session_state[key].strip()
        session.correct(lambda plan: evolve(plan, title=title), anew=False)

    st.text_input(
        "Site",
        session.work.plan.title,
        key=key,
        on_change=retitle,
        max_chars=120,
        placeholder="Name of the site",
    )


def _scale(storey: Storey) -> None:
    if storey.scale is None:
        if storey.source is not None:
            st.caption("Scale: not set yet, so nothing has a size.")
        return
    basis, error = plain(storey.scale.basis), storey.scale.relative_error
    if error > GUESSED_SCALE:
        with st.container(key="scale-doubt"):
            st.markdown(
                f"The scale is {basis}, so lengths may be off by {error:.0%} and areas by twice "
                "that. Set it by any length or area you know."
            )
    else:
        within = f"; lengths within about {error:.1%}" if error else ""
        st.caption(f"Scale: {basis}{within}.")


def _doubts(session: Session) -> None:
    quote = session.quote
    doubts = quote.assumptions if quote else session.work.plan.doubts
    if not doubts:
        return
    with st.expander(f"{counted(len(doubts), 'assumption')} to look at"):
        st.markdown("\n".join(f"- {plain(doubt.says)}" for doubt in doubts))
