"""Setting the scale, by whatever is known."""

import streamlit as st

from estimator.web.state import Session


def scale_panel(session: Session) -> None:
    """Offer every way to set the scale."""
    st.caption("soon")
