"""The live sketch: a line that adds rooms as they are named on a call, and the usual rooms."""

from functools import cache
from typing import Any

import streamlit as st
from attrs import define, evolve, field

from estimator.plan.storey import Storey
from estimator.quantities import Units
from estimator.web.state import Session
from estimator.web.table.heard import Heard
from estimator.web.wording import plain
from estimator.workflow.sketching import sketch_into, stock_rooms
from estimator.workflow.work import Work

_KEY, _SAYS = "sketch-words", "sketch-says"
_EXAMPLES = {Units.METRIC: "kitchen 4x3 off the hall", Units.US: "kitchen 12x10 off the hall"}
_MOST_REFUSED = 20
_LONGEST = 2000


@define(kw_only=True)
class Lines(Heard):
    """What was heard of the line of one browser tab.

    Parameters
    ----------
    refused
        What goes back into the line: the last words that could not be taken.
    """

    refused: list[dict[str, Any]] = field(factory=list)


def sketch_line(session: Session, storey: Storey) -> None:
    """Add a room a line, or say how rooms that are there are joined; Enter goes on to the next."""
    lines = _lines()
    data = {
        "label": "Add a room as you hear it, and press Enter",
        "hint": _EXAMPLES[session.units],
        "done": lines.done,
        "refused": lines.refused,
    }
    with st.container(key="sketch-place", horizontal=True, vertical_alignment="bottom"):
        with st.container(key="sketch-line"):
            _component()(
                key=_KEY,
                data=data,
                on_edits_change=lambda: _take(session, storey.number, lines),
            )
        _usual_rooms(session, storey)
    with st.container(key="sketch-says"):
        if says := st.session_state.get(_SAYS):
            st.error(plain(says))


def take_lines(session: Session, storey: int, lines: Lines, sent: object) -> str:
    """Add the rooms of the lines that were not heard before; return why some were refused."""
    says = []
    for client, number, line in lines.news(sent):
        words = str(line.get("words", ""))
        if words.strip() and (problem := _add(session, storey, words)):
            says.append(problem)
            lines.refused.append({"client": client, "seq": number, "words": words[:_LONGEST]})
    del lines.refused[:-_MOST_REFUSED]
    return " ".join(says)


def _take(session: Session, storey: int, lines: Lines) -> None:
    sent = st.session_state[_KEY].get("edits")
    st.session_state[_SAYS] = take_lines(session, storey, lines, sent)


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


def _add_usual(session: Session, storey: int, use: str) -> None:
    st.session_state[_SAYS] = _add(session, storey, use)


def _add(session: Session, storey: int, words: str) -> str:
    """Add rooms, or keep everything and return why not."""

    def with_rooms(work: Work) -> Work:
        plan = sketch_into(work.plan, words, book=work.book, storey=storey, units=session.units)
        on_picture = plan.storey(storey).source is not None
        # Another document on the drawing table is shown whole, with the rooms that are new.
        return evolve(work, plan=plan, document=work.document if on_picture else session.step + 1)

    session.change(with_rooms)
    problem, session.problem = session.problem, ""
    return problem


def _lines() -> Lines:
    found = st.session_state.setdefault("sketch-lines", Lines())
    assert isinstance(found, Lines)
    return found


@cache
def _component() -> Any:
    """Declare the component; a line of Streamlit's own would forget one of two quick entries."""
    return st.components.v2.component("estimator.sketch_line", js="line.js")
