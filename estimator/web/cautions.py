"""Cautions, shown where the decision is made."""

import streamlit as st

from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision
from estimator.web.wording import plain

_HEADINGS = {
    Decision.STRENGTH: "Before anyone mixes",
    Decision.VISIT: "Before anyone sprays",
    Decision.QUOTE: "Before anyone agrees",
}


def caution_panel(quote: Quote, decision: Decision) -> None:
    """Show the cautions that belong beside a decision, and who says so."""
    cautions = [caution for caution in quote.cautions if caution.where is decision]
    with st.container(key=f"cautions-{decision.value}"):
        st.subheader(_HEADINGS[decision])
        st.markdown("\n".join(f"1. {plain(caution.text)}" for caution in cautions))
        with st.expander("Who says so, by number"):
            st.markdown("\n".join(f"1. {plain(caution.source)}" for caution in cautions))


def unconfirmed_panel(quote: Quote) -> None:
    """Show what the label must still confirm before anyone sprays."""
    if quote.solution.unconfirmed:
        with st.container(key="unconfirmed"):
            st.subheader("Not confirmed yet")
            st.markdown("\n".join(f"- {plain(fact)}" for fact in quote.solution.unconfirmed))
