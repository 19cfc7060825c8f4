"""Whom the work on the screen is addressed to, and what it is called between firm and client."""

import streamlit as st

from estimator.errors import EstimatorError
from estimator.quote.quote import Quote
from estimator.quote.recipient import Recipient
from estimator.web.heading import link
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.offers import is_version
from estimator.workflow.papers import draft_for, recipient_of
from estimator.workflow.storing import store


def addressed(session: Session, quote: Quote) -> Recipient | None:
    """Return whom papers are addressed to; nobody while the work is no quote of a site."""
    key = session.kept_as
    if key is None:
        return None
    try:
        kept = store()
        same = session.once(
            ("version", key), lambda: is_version(kept, key, session.work, quote.date)
        )
        return recipient_of(kept, key) if same else draft_for(kept, key)
    except EstimatorError as error:
        session.problem = f"{error} Papers are addressed to nobody until then."
        return None


def address_line(session: Session, recipient: Recipient | None) -> None:
    """Say whom papers are addressed to, and where that is changed."""
    key = session.kept_as
    if recipient is None or key is None:
        st.caption("Addressed to nobody yet, and without a number.")
        link("sites", "Keep it as a quote of a site →")
        return
    places = plain(", ".join(filter(None, (recipient.client, recipient.site))))
    if recipient.version:
        st.caption(f"For {places}: quote {recipient.number}, version {recipient.version}.")
        link("sites", "Tell how far it has come →", quote=key.quote)
    else:
        st.caption(
            f"For {places}: quote {recipient.number}, a draft that differs from version "
            f"{key.number}."
        )
        link("sites", "Keep it as the next version →", quote=key.quote)
