"""Sites: clients, their sites and the quotes kept of them; the work on the screen kept as one."""

import streamlit as st

from estimator.errors import EstimatorError
from estimator.web.heading import page_heading
from estimator.web.sites.archiving import archive_panel
from estimator.web.sites.clients import clients_panel, close_texts
from estimator.web.sites.offering import keep_panel
from estimator.web.sites.offers import lead_to, quotes_panel
from estimator.web.state import current
from estimator.web.wording import plain
from estimator.workflow.storing import store

_QUOTE = "quote"
"""The parameter of the address that names the quote to show."""

_QUOTES, _CLIENTS = "Quotes", "Clients and sites"


def show() -> None:
    """Show what is kept of every site."""
    session = current()
    page_heading("Sites", "Every quote that is kept, by client and site, in all its versions.")
    if asked := st.query_params.get(_QUOTE):
        lead_to(asked)
        del st.query_params[_QUOTE]
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
