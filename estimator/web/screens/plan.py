"""Plan: open one, set its scale, correct its rooms."""

import streamlit as st
from attrs import evolve

from estimator.web.drawings import plan_over_picture
from estimator.web.opening import opening_panel, page_choice
from estimator.web.rooms import room_table
from estimator.web.scale import scale_panel
from estimator.web.state import Session, current
from estimator.web.wording import counted, plain


def show() -> None:
    """Show the plan with its corrections."""
    session = current()
    _tools(session)
    drawing, table = st.columns([11, 9], gap="large")
    with drawing:
        page_choice(session)
        plan_over_picture(session)
        _scale_line(session)
    with table:
        _title(session)
        room_table(session)
        _doubts(session)


def _tools(session: Session) -> None:
    with st.container(key="tools", horizontal=True):
        with st.popover("Open a plan", icon=":material/folder_open:", key=f"open-{session.step}"):
            opening_panel(session)
        with st.popover("Set the scale", icon=":material/straighten:", key=f"scale-{session.step}"):
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


def _scale_line(session: Session) -> None:
    for storey in session.work.plan.storeys:
        if storey.scale:
            error = storey.scale.relative_error
            within = f"; lengths within about {error:.1%}" if error else ""
            st.caption(f"Scale: {plain(storey.scale.basis)}{within}.")
        elif storey.source:
            st.caption("Scale: not set yet, so nothing has a size.")


def _doubts(session: Session) -> None:
    quote = session.quote
    doubts = quote.assumptions if quote else session.work.plan.doubts
    if not doubts:
        return
    with st.expander(f"{counted(len(doubts), 'assumption')} to look at"):
        st.markdown("\n".join(f"- {plain(doubt.says)}" for doubt in doubts))
