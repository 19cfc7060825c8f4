"""The list of quotes, and the versions of the one that is chosen."""

from html import escape

import streamlit as st
from attrs import evolve

from estimator.errors import EstimatorError
from estimator.quantities import shown_area
from estimator.quantities.counted import counted
from estimator.quantities.shown_money import shown_money
from estimator.store.store import Store
from estimator.store.values import Found, Key, Listed, Order, Search, Status, Version
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.offers import work_of

CHOSEN = "quote-chosen"
"""Where the session remembers which quote's versions are shown."""

_PAGE = 20
_FIRST, _SEARCHED = "quotes-first", "quotes-searched"
_ORDERS = {
    "Newest first": (Order.DATE, False),
    "Oldest first": (Order.DATE, True),
    "By name": (Order.TITLE, True),
    "Dearest first": (Order.TOTAL, False),
    "Largest first": (Order.TREATED, False),
}


def quotes_panel(session: Session, store: Store) -> None:
    """Show the quotes that match what is searched for, and the versions of the chosen one."""
    found = store.quotes.find(_search())
    if not found.rows:
        st.markdown("No quote is kept yet." if _SEARCHED not in st.session_state else "None found.")
        return
    chosen = st.session_state.get(CHOSEN, "")
    with st.container(key="quotes", gap=None):
        for row in found.rows:
            _row(session, row, chosen=row.quote == chosen)
            if row.quote == chosen:
                _versions(session, store, row)
    _pages(found)


def _search() -> Search:
    with st.container(key="quotes-search", horizontal=True, vertical_alignment="bottom"):
        words = st.text_input(
            "Search",
            placeholder="Words of the quote, site, address or client",
            key="quotes-words",
            on_change=_from_the_start,
        )
        status = st.selectbox(
            "Status",
            ["all", *Status],
            format_func=lambda status: str(status).capitalize(),
            key="quotes-status",
            width=150,
            on_change=_from_the_start,
        )
        order = st.selectbox(
            "Sorted", list(_ORDERS), key="quotes-order", width=170, on_change=_from_the_start
        )
    by, rising = _ORDERS[order]
    return Search(
        words=words,
        statuses=() if status == "all" else (Status(status),),
        by=by,
        rising=rising,
        first=st.session_state.get(_FIRST, 0),
        most=_PAGE,
    )


def _from_the_start() -> None:
    st.session_state[_FIRST] = 0
    st.session_state[_SEARCHED] = True


def _row(session: Session, row: Listed, *, chosen: bool) -> None:
    def choose() -> None:
        st.session_state[CHOSEN] = "" if chosen else row.quote

    place = ", ".join(filter(None, (row.site_name, row.client_name)))
    with st.container(key=f"quote-row-{row.quote}", horizontal=True, vertical_alignment="center"):
        st.button(
            plain(row.title or "Untitled site"),
            key=f"quote-{row.quote}",
            type="tertiary",
            icon=":material/expand_more:" if chosen else ":material/chevron_right:",
            on_click=choose,
        )
        st.html(
            f'<div class="cells"><span>{escape(place)}</span>'
            f'<span class="{row.status}">{row.status.capitalize()}</span>'
            f"<span>{escape(row.date)}</span>"
            f"<span>{shown_area(row.treated, session.units)}</span>"
            f"<span>{escape(shown_money(row.total))}</span></div>"
        )


def _versions(session: Session, store: Store, row: Listed) -> None:
    with st.container(key="versions"):
        for version in store.quotes.versions(row.quote):
            _version(session, store, version, counts=version.key == row.key)


def _version(session: Session, store: Store, version: Version, *, counts: bool) -> None:
    number = version.key.number
    key = f"status-{version.key.quote}-{number}"

    def take() -> None:
        try:
            store.quotes.set_status(version.key, st.session_state[key])
        except EstimatorError as error:
            session.problem = str(error)

    with st.container(key=f"version-{number}", horizontal=True, vertical_alignment="center"):
        said = [f"Version {number}", version.date, shown_money(version.total)]
        if version.after not in (0, number - 1):
            said.append(f"made from version {version.after}")
        if version.note:
            said.append(version.note)
        if version.key == session.kept_as:
            said.append("on the screen")
        st.markdown(
            ("**{}** · {}" if counts else "{} · {}").format(said[0], plain(" · ".join(said[1:]))),
            width="stretch",
        )
        st.selectbox(
            f"Status of version {number}",
            list(Status),
            index=list(Status).index(version.status),
            format_func=str.capitalize,
            key=key,
            on_change=take,
            label_visibility="collapsed",
            width=140,
        )
        st.button(
            f"Open version {number}",
            key=f"open-{version.key.quote}-{number}",
            on_click=open_version,
            args=(session, store, version.key),
            help="Goes on with this version as it was; keeping it makes another version.",
        )


def open_version(session: Session, store: Store, key: Key) -> None:
    """Go on with the work behind a version, or keep everything and say why not."""
    if session.open(lambda work: evolve(work_of(store, key), document=work.document)):
        session.kept_as = key


def _pages(found: Found) -> None:
    first = st.session_state.get(_FIRST, 0)
    if found.count <= _PAGE:
        st.caption(counted(found.count, "quote"))
        return

    def turn(by: int) -> None:
        st.session_state[_FIRST] = max(0, first + by)

    with st.container(key="quotes-pages", horizontal=True, vertical_alignment="center"):
        st.button("Back", disabled=not first, on_click=turn, args=(-_PAGE,), key="quotes-back")
        last = first + len(found.rows)
        st.button("On", disabled=last >= found.count, on_click=turn, args=(_PAGE,), key="quotes-on")
        st.caption(f"{first + 1:,} to {last:,} of {counted(found.count, 'quote')}")
