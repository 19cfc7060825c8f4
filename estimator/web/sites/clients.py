"""Clients and their sites, corrected in place; every earlier text is kept and can be taken back."""

from collections.abc import Callable

import streamlit as st
from attrs import evolve

from estimator.errors import EstimatorError, StaleVersion
from estimator.quantities.counted import counted
from estimator.quantities.language import Language
from estimator.store.clients import Clients, Sites
from estimator.store.store import Store
from estimator.store.values import Client, Site
from estimator.web.quote.papers import LANGUAGES
from estimator.web.wording import plain

_NOBODY = ""
_MOST = 200  # in a menu; the search narrows them down
_LABELS = {
    "name": "Name",
    "contact": "Contact: people, telephone, mail",
    "address": "Address, line by line as on a letter",
    "language": "Language of papers",
    "note": "Note for yourselves",
}
_CLIENT, _SITE = ("name", "address", "language", "contact", "note"), ("name", "address", "note")
_NONE = "No client is kept yet. Whoever a quote is kept for is listed here."
_SAID, _OPEN, _OPEN_AT = "text-said", "texts-open", "texts-open-at"


def clients_panel(store: Store) -> None:
    """Show the clients that match what is searched for, the chosen one, and their sites."""
    words = st.text_input(
        "Search", placeholder="Words of the client or of the contact", key="clients-words"
    )
    found = {client.id: client for client in store.clients.find(words, most=_MOST)}
    nobodys = store.sites.find(words, client="", most=_MOST)
    if not found and not nobodys:
        st.markdown(_NONE if not words else "None found.")
        return
    chosen = st.selectbox(
        "Client",
        [*found, *([_NOBODY] if nobodys else [])],
        format_func=lambda name: found[name].name if name in found else "Sites without a client",
        key=f"client-{words}",
        help=f"The first {_MOST} by name." if len(found) == _MOST else None,
    )
    if st.session_state.get(_OPEN_AT) != chosen:
        close_texts()
        st.session_state[_OPEN_AT] = chosen
    if chosen in found:
        _text(store.clients, found[chosen])
    sites = store.sites.find(client=chosen, most=_MOST) if chosen in found else nobodys
    st.subheader(counted(len(sites), "site"))
    for site in sites:
        with st.expander(plain(site.name)):
            _text(store.sites, site)
    with st.expander("Another site"):
        _text(store.sites, Site(name="", client=chosen))


def close_texts() -> None:
    """Forget which texts were being corrected."""
    st.session_state.pop(_OPEN_AT, None)
    st.session_state[_OPEN] = {}


def _text(kept: Clients | Sites, latest: Client | Site) -> None:
    """Show a text as fields that can be corrected, and what it was before.

    What somebody else saves meanwhile does not replace what is being typed.
    """
    value = st.session_state[_OPEN].setdefault(latest.id, latest)
    key = f"{type(value).__name__}-{value.id or 'new'}-{value.version}"
    fields = _CLIENT if isinstance(value, Client) else _SITE
    if said := st.session_state.pop(f"{_SAID}-{value.id}", ""):
        st.info(plain(said))

    def typed() -> None:
        given = {name: st.session_state[f"{key}-{name}"] for name in fields}
        _save(kept, evolve(value, **given))

    with st.form(f"{key}-form", border=False):
        for name in fields:
            _field(name, getattr(value, name), f"{key}-{name}")
        st.form_submit_button("Save", key=f"{key}-save", on_click=typed)
    if value.version > 1:
        with st.popover(f"Earlier texts ({value.version - 1})", key=f"{key}-earlier"):
            for text in kept.texts(value.id)[1:]:
                said = (getattr(text, name) for name in fields)
                st.markdown(plain(" · ".join(str(one) for one in said if one)))
                st.button(
                    "Take it back",
                    key=f"{key}-take-{text.version}",
                    on_click=_save,
                    args=(kept, evolve(text, version=value.version)),
                )


def _field(name: str, value: str | Language | None, key: str) -> None:
    if name == "language":
        offered = [None, *LANGUAGES]
        st.selectbox(
            _LABELS[name],
            offered,
            index=offered.index(Language(value) if value else None),
            format_func=lambda one: LANGUAGES[one] if one else "As usual",
            key=key,
            width=220,
        )
    elif name == "name":
        st.text_input(_LABELS[name], value or "", key=key)
    else:
        st.text_area(_LABELS[name], value or "", key=key, height=84)


def _save(kept: Clients | Sites, value: Client | Site) -> None:
    """Save a text; where somebody else changed it meanwhile, after theirs, and say so."""
    saving: Callable[..., Client | Site] = kept.save
    says = f"{_SAID}-{value.id}"
    try:
        try:
            saving(value, after=value.version)
        except StaleVersion:
            saving(value, after=kept.get(value.id).version)
            st.session_state[says] = (
                "Somebody else changed this meanwhile. Both texts are kept: yours counts now, "
                "theirs is the first of the earlier texts."
            )
        st.session_state[_OPEN].pop(value.id, None)
    except EstimatorError as error:
        st.session_state[says] = str(error)
