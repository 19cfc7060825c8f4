"""Plan: open one, set its scale, correct its rooms."""

import streamlit as st
from attrs import evolve

from estimator.plan.edits import without_storey
from estimator.plan.storey import Storey
from estimator.quantities.counted import counted
from estimator.web.plan.drawings import chosen_storey
from estimator.web.plan.opening import opening_panel
from estimator.web.plan.review import review_list
from estimator.web.plan.rooms import room_table
from estimator.web.plan.scale import one_question, scale_panel
from estimator.web.plan.sketching import sketch_line
from estimator.web.state import Session, current
from estimator.web.table.table import drawing_table
from estimator.web.wording import plain
from estimator.workflow.asking import scale_question
from estimator.workflow.sheet_scales import is_sized


def show() -> None:
    """Show the plan with its corrections."""
    session = current()
    _tools(session)
    drawing, table = st.columns([7, 4], gap="medium")
    with drawing:
        # Both may be empty: the drawing table keeps its place, or it would be put up anew.
        with st.container(key="above-table"):
            storey = _storey(session)
            if storey.source is None:
                sketch_line(session, storey)
        drawing_table(session, storey)
        _scale(session, storey)
        one_question(session)
        if storey.source is not None:
            sketch_line(session, storey)
    with table:
        _title(session)
        review_list(session)
        room_table(session)
        _doubts(session)


def _tools(session: Session) -> None:
    with st.container(key="tools", horizontal=True):
        with st.popover("Open a plan", icon=":material/folder_open:", key=f"open-{session.scene}"):
            opening_panel(session)
        with st.popover(
            "Set the scale",
            icon=":material/straighten:",
            type="primary" if scale_question(session.work.plan) else "secondary",
            key=f"scale-{session.scene}",
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


def _storey(session: Session) -> Storey:
    """Offer the storeys where there are several, and to remove the one shown."""
    if len(session.work.plan.storeys) == 1:
        return session.work.plan.storeys[0]
    with st.container(key="storeys", horizontal=True, vertical_alignment="center"):
        storey = chosen_storey(session)

        def remove() -> None:
            session.correct(lambda plan: without_storey(plan, storey.number))

        st.button(
            "Remove this storey",
            icon=":material/layers_clear:",
            key="remove-storey",
            on_click=remove,
        )
    return storey


def _title(session: Session) -> None:
    key = f"title-{session.edition}"
    shown = session.work.plan.title

    def retitle() -> None:
        title = st.session_state[key].strip()
        if title == shown:
            return  # a field that came onto the page a moment ago reports itself
        session.correct(lambda plan: evolve(plan, title=title), anew=False)

    st.text_input(
        "Site",
        shown,
        key=key,
        on_change=retitle,
        max_chars=120,
        placeholder="Name of the site",
    )


def _scale(session: Session, storey: Storey) -> None:
    if storey.scale is None:
        if storey.source is not None:
            st.caption("Scale: not known yet; the rooms are in proportion.")
        return
    basis, error = plain(session.in_units(storey.scale.basis)), storey.scale.relative_error
    if not is_sized(storey):
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
        st.markdown("\n".join(f"- {plain(session.in_units(doubt.says))}" for doubt in doubts))
