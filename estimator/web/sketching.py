"""The live sketch: a line that adds rooms as they are named on a call, and the usual rooms."""

import streamlit as st
from attrs import evolve

from estimator.plan.storey import Storey
from estimator.quantities import Units
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.sketching import sketch_into, stock_rooms
from estimator.workflow.work import Work

_WORDS, _SAYS = "sketch-words", "sketch-says"
_EXAMPLES = {Units.METRIC: "kitchen 4x3 off the hall", Units.US: "kitchen 12x10 off the hall"}


def sketch_line(session: Session, storey: Storey) -> None:
    """Add a room a line, or say how rooms that are there are joined; Enter goes on to the next."""
    with st.container(key="sketch-place", horizontal=True, vertical_alignment="bottom"):
        with (
            # Emptied in the browser at once, so that whoever types on loses no letter.
            st.form("sketch", border=False, clear_on_submit=True),
            st.container(key="sketch-line", horizontal=True, vertical_alignment="bottom"),
        ):
            st.text_input(
                "Add a room as you hear it, and press Enter",
                placeholder=_EXAMPLES[session.units],
                key=_WORDS,
            )
            st.form_submit_button("Add", on_click=_add_words, args=(session, storey.number))
        _usual_rooms(session, storey)
    with st.container(key="sketch-says"):
        if says := st.session_state.get(_SAYS):
            st.error(plain(says))


def _usual_rooms(session: Session, storey: Storey) -> None:
    """Offer rooms by their use, in its usual size; a click adds one."""
    with (
        st.popover("Usual rooms", key="stock", width="content"),
        st.container(key="stock-rooms", horizontal=True, gap="xxsmall"),
    ):
        for use in stock_rooms(session.work.book):
            st.button(
                use.label,
                key=f"stock-{use.slug}",
                on_click=_add_usual,
                args=(session, storey.number, use.words[0] if use.words else use.label),
                type="tertiary",
            )


def _add_words(session: Session, storey: int) -> None:
    words = st.session_state[_WORDS]
    if words.strip() and not _add(session, storey, words):
        st.session_state[_WORDS] = words


def _add_usual(session: Session, storey: int, use: str) -> None:
    _add(session, storey, use)


def _add(session: Session, storey: int, words: str) -> bool:
    """Add rooms, or keep everything and say why not beside the line."""

    def with_rooms(work: Work) -> Work:
        plan = sketch_into(work.plan, words, book=work.book, storey=storey, units=session.units)
        on_picture = plan.storey(storey).source is not None
        # Another document on the drawing table is shown whole, with the rooms that are new.
        return evolve(work, plan=plan, document=work.document if on_picture else session.step + 1)

    added = session.change(with_rooms)
    st.session_state[_SAYS], session.problem = session.problem, ""
    return added
