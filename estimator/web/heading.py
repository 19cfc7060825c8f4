"""The head of a page that is not about one site, and links from page to page."""

import re
from collections.abc import Iterable
from typing import Any

import streamlit as st
from streamlit.navigation.page import StreamlitPage

_PAGES = "pages"
_NO_WORD = re.compile(r"\W+")


def page_heading(title: str, says: str) -> None:
    """Show what a page is called and what it is for."""
    with st.container(key="page-heading"):
        st.subheader(title)
        st.caption(says)


def know(pages: Iterable[StreamlitPage]) -> None:
    """Remember the pages of the app, so that others link to them."""
    st.session_state[_PAGES] = {page.url_path or "plan": page for page in pages}


def link(path: str, label: str, **asked: str) -> None:
    """Show a link to a page.

    Parameters
    ----------
    asked
        Parameters of the address, such as the quote that the page shows.
    """
    page: Any = st.session_state[_PAGES][path]
    with st.container(key=f"link-{path}-{_NO_WORD.sub('-', label)}"):
        st.page_link(page, label=label, query_params=asked or None)
