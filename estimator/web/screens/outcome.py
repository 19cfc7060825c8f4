"""Outcomes: the crew writes down what a visit took; the estimator sees what follows from it."""

import streamlit as st

from estimator.errors import EstimatorError
from estimator.web.heading import page_heading
from estimator.web.outcomes.learning import estimate_and_actual
from estimator.web.outcomes.writing_down import writing_down
from estimator.web.state import current
from estimator.web.wording import plain
from estimator.workflow.storing import store

_CREW, _ESTIMATOR = "Write down", "Estimate and actual"


def show() -> None:
    """Show the side that was chosen: the crew's, or the estimator's."""
    session = current()
    page_heading("Outcomes", "What visits really took, and what the book learns from it.")
    side = st.segmented_control(
        "Side",
        [_CREW, _ESTIMATOR],
        default=_CREW,
        required=True,
        key="outcome-side",
        label_visibility="collapsed",
    )
    try:
        if side == _CREW:
            writing_down(session, store())
        else:
            estimate_and_actual(session, store())
    except EstimatorError as error:
        st.error(plain(str(error)))
