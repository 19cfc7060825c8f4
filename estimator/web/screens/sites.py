"""Sites: clients, their sites and the quotes kept of them; the work on the screen kept as one."""

import streamlit as st

from estimator.errors import EstimatorError
from estimator.web.archiving import archive_panel
from estimator.web.clients import clients_panel, close_texts
from estimator.web.offering import keep_panel
from estimator.web.offers import quotes_panel
from estimator.web.state import current
from estimator.web.wording import plain
from estimator.workflow.storing import store

_QUOTES, _CLIENTS = "Quotes", "Clients and sites"


def show() -> None:
    """Show what is kept of every site."""
    session = current()
    try:
        kept = store()
        left, right = st.columns([13, 7], gap="large")
        with right:
            keep_panel(session, kept)
        with left:
            view = st.segmented_control(
                "What to show",
                [_QUOTES, _CLIENTS],
                default=_QUOTES,
                required=True,
                key="sites-view",
                label_visibility="collapsed",
            )
            if view == _CLIENTS:
                clients_panel(kept)
            else:
                close_texts()
                quotes_panel(session, kept)
        with right:
            archive_panel(kept)
    except EstimatorError as error:
        st.error(plain(str(error)))
