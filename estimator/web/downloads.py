"""Papers and data to take away."""

import re

import streamlit as st

from estimator.quote.quote import Quote
from estimator.web.state import Session
from estimator.workflow.files import plan_text


def downloads(session: Session, quote: Quote) -> None:
    """Offer every paper and file; each is made when it is asked for."""
    plan = session.work.plan
    name = re.sub(r"[^a-z0-9]+", "-", plan.title.lower()).strip("-") or "site"
    st.subheader("Take away")
    st.download_button(
        "Plan (plan.json)",
        lambda: plan_text(plan),
        file_name=f"{name}.plan.json",
        mime="application/json",
        on_click="ignore",
    )
