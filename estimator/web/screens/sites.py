"""Sites: clients, their sites, and the quotes that were kept."""

import streamlit as st


def show() -> None:
    """Show what is kept of every site."""
    st.subheader("Quotes")
    st.markdown("No quote is kept yet.")
