"""The work on the screen, kept as a quote of a site."""

import streamlit as st

from estimator.errors import EstimatorError, StaleVersion
from estimator.quantities.shown_money import shown_money
from estimator.quote.quote import Quote
from estimator.store.store import Store
from estimator.store.values import Client, Key, Site
from estimator.web.sites.offers import CHOSEN
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.comparing import quote_name
from estimator.workflow.offers import keep_quote

NEW = ""
"""Stands among ids for what is not kept yet."""

_MOST = 2000  # in a menu; more nobody scrolls through
_NOBODY = "nobody"
_NOTE, _SAID = "version-note", "kept-quote-said"


def keep_panel(session: Session, store: Store) -> None:
    """Offer to keep the work as the next version of its quote, or as a quote of a site."""
    st.subheader("Keep this work")
    quote = session.quote
    if quote is None:
        st.markdown(plain(session.why_no_quote))
        return
    st.markdown(f"{plain(quote.title or 'Untitled site')} · {shown_money(quote.price.total)}")
    if said := st.session_state.pop(_SAID, ""):
        st.success(plain(said))
    st.text_input(
        "Note on this version",
        key=_NOTE,
        placeholder="What is new in this version, for yourselves",
        label_visibility="collapsed",
    )
    if session.kept_as:
        _next_version(session, store, quote, session.kept_as)
        with st.expander("As a quote of another site"):
            _new_quote(session, store, quote)
    else:
        _new_quote(session, store, quote)


def _next_version(session: Session, store: Store, quote: Quote, key: Key) -> None:
    row = store.quotes.listed(key.quote)
    st.caption(f"Opened from version {key.number} of {plain(quote_name(row))}.")

    def take() -> None:
        try:
            session.kept_as = _added(session, store, quote, key)
            st.session_state[CHOSEN] = key.quote
            st.session_state[_NOTE] = ""
        except EstimatorError as error:
            session.problem = str(error)

    st.button("Keep as the next version", on_click=take, key="keep-version", type="primary")


def _added(session: Session, store: Store, quote: Quote, key: Key) -> Key:
    """Keep the next version; where somebody else kept one meanwhile, after theirs, and say so."""
    note = st.session_state[_NOTE]
    try:
        kept = keep_quote(
            store, session.work, quote, quote_id=key.quote, after=key.number, note=note
        )
        st.session_state[_SAID] = f"Kept as version {kept.number}."
    except StaleVersion:
        theirs = store.quotes.listed(key.quote).number
        kept = keep_quote(store, session.work, quote, quote_id=key.quote, after=theirs, note=note)
        st.session_state[_SAID] = (
            f"Somebody else kept version {theirs} meanwhile. Both are kept: yours is version "
            f"{kept.number}. Look at theirs in the list."
        )
    return kept


def _new_quote(session: Session, store: Store, quote: Quote) -> None:
    clients = {client.id: client.name for client in store.clients.find(most=_MOST)}
    client = st.selectbox(
        "Client",
        [NEW, _NOBODY, *clients],
        format_func=lambda name: (
            {NEW: "A new client", _NOBODY: "No client"}.get(name) or clients[name]
        ),
        key="offer-client",
    )
    if client == NEW:
        st.text_input("Name of the client", key="offer-client-name")
        st.text_area("Address of the client", key="offer-client-address", height=68)
    sites = {}
    if client in clients:
        sites = {site.id: site.name for site in store.sites.find(client=client, most=_MOST)}
    site = st.selectbox(
        "Site",
        [NEW, *sites],
        format_func=lambda name: sites.get(name, "A new site"),
        key="offer-site",
    )
    if site == NEW:
        st.text_input("Name of the site", quote.title, key="offer-site-name")
        st.text_area("Address of the site", key="offer-site-address", height=68)

    def take() -> None:
        try:
            with store.together():
                place = site or _new_site(store, client)
                note = st.session_state[_NOTE]
                key = keep_quote(store, session.work, quote, site=place, note=note)
        except EstimatorError as error:
            session.problem = str(error)
            return
        session.kept_as = key
        st.session_state[CHOSEN] = key.quote
        st.session_state[_NOTE] = ""
        st.session_state[_SAID] = "Kept as version 1 of a new quote."

    st.button("Keep as a quote", on_click=take, key="keep-quote", type="primary")


def _new_site(store: Store, client: str) -> str:
    name = st.session_state["offer-site-name"]
    if client == NEW:
        new = Client(
            name=st.session_state["offer-client-name"],
            address=st.session_state["offer-client-address"],
        )
        client = store.clients.save(new, after=0).id
    elif client == _NOBODY:
        client = ""
    address = st.session_state["offer-site-address"]
    return store.sites.save(Site(name=name, client=client, address=address), after=0).id
