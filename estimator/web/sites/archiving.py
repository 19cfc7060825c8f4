"""Everything that is kept, taken along and brought in."""

import streamlit as st

from estimator.errors import EstimatorError
from estimator.store.archive.merging import read_archive
from estimator.store.store import Store
from estimator.web.theme import LARGEST_UPLOAD_MB
from estimator.web.wording import plain
from estimator.workflow.archives import brought_words, exported

_SAID, _TURN = "archive-said", "archive-turn"


def archive_panel(store: Store) -> None:
    """Offer the archive of everything, and to bring one in."""
    with st.expander("Everything as one file"):
        st.markdown(
            "One archive of open formats holds all clients, sites, quotes, outcomes, plans and "
            "pictures. Brought in elsewhere, it adds to what is kept there and overwrites nothing."
        )
        st.download_button(
            "Export everything",
            lambda: exported(store),
            file_name="estimator-archive.zip",
            mime="application/zip",
            icon=":material/download:",
            on_click="ignore",
            key="export",
        )
        _import(store)
        st.caption(f"Kept in {plain(store.where)}.")


def _import(store: Store) -> None:
    key = f"import-{st.session_state.get(_TURN, 0)}"

    def take() -> None:
        given = st.session_state[key]
        if given is None:
            return
        try:
            st.session_state[_SAID] = brought_words(read_archive(store, given, given.name))
        except EstimatorError as error:
            st.session_state[_SAID] = str(error)
        st.session_state[_TURN] = st.session_state.get(_TURN, 0) + 1

    st.file_uploader(
        f"Bring an archive in (up to {LARGEST_UPLOAD_MB} MB; larger ones with estimator import)",
        type="zip",
        key=key,
        on_change=take,
    )
    if said := st.session_state.pop(_SAID, ""):
        st.info(plain(said))
