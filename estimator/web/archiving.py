"""Everything that is kept, taken along and brought in."""

import streamlit as st

from estimator.store.store import Store


def archive_panel(store: Store) -> None:
    """Offer the archive of everything, and to bring one in."""
    st.caption(f"Kept in {store.where}.")
