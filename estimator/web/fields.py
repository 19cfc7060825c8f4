"""Fields for measures, read as they are typed, with what is wrong said beneath them."""

from collections.abc import Callable

import streamlit as st

from estimator.errors import EstimatorError
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.work import Work


def typed(
    session: Session,
    name: str,
    label: str,
    shown: str,
    change: Callable[[str], Callable[[Work], Work]],
    *,
    hint: str = "",
    example: str = "",
    lines: bool = False,
) -> None:
    """Show a field that changes the work by what is typed, or says beneath it why it does not.

    Parameters
    ----------
    name
        Tells the field from others.
    shown
        What stands in it.
    change
        Reads what was typed into a change of the work.
    lines
        Whether it has several lines.
    """
    key = f"{name}-{session.edition}"
    said = f"{key}-says"

    def take() -> None:
        text = str(st.session_state[key] or "").strip()
        st.session_state.pop(said, None)
        if text == shown:
            return
        try:
            changed = change(text)(session.work)
        except EstimatorError as error:
            st.session_state[said] = str(error)
            return
        session.change(lambda _: changed, anew=False)

    field = st.text_area if lines else st.text_input
    field(label, shown, key=key, on_change=take, help=hint or None, placeholder=example or None)
    if said in st.session_state:
        st.error(plain(st.session_state[said]))
