"""The list of quotes, and the versions of the one that is chosen."""

from collections.abc import Iterator
from datetime import UTC, datetime
from html import escape

import streamlit as st
from attrs import evolve

from estimator.documents.unwritten import unwritten
from estimator.errors import EstimatorError
from estimator.quantities import shown_area
from estimator.quantities.counted import counted
from estimator.quantities.shown_money import shown_money
from estimator.quote.terms import Terms
from estimator.store.store import Store
from estimator.store.values import Found, Key, Listed, Order, Search, Status, Version
from estimator.web.heading import link
from estimator.web.quote.papers import look_for
from estimator.web.sites.visits import visits_panel
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.offers import terms_kept, work_of
from estimator.workflow.papers import Look, kept_paper, tell_status

CHOSEN = "quote-chosen"
"""Where the session remembers which quote's versions are shown."""

_PAGE = 20
_FIRST, _SEARCHED, _LINKED = "quotes-first", "quotes-searched", "quote-linked"
_ORDERS = {
    "Newest first": (Order.DATE, False),
    "Oldest first": (Order.DATE, True),
    "By name": (Order.TITLE, True),
    "Dearest first": (Order.TOTAL, False),
    "Largest first": (Order.TREATED, False),
}


def lead_to(quote: str) -> None:
    """Open a quote in the list, and show it wherever the list would have it."""
    st.session_state[CHOSEN] = st.session_state[_LINKED] = quote


def quotes_panel(session: Session, store: Store) -> None:
    """Show the quotes that match what is searched for, and the versions of the chosen one."""
    found = store.quotes.find(_search())
    chosen = st.session_state.get(CHOSEN, "")
    rows = list(found.rows)
    linked = st.session_state.get(_LINKED, "")
    if linked and all(row.quote != linked for row in rows):
        rows = [*_asked(session, store, linked), *rows]
    if not rows:
        if _SEARCHED in st.session_state:
            st.markdown("None found.")
            return
        st.markdown("No quote is kept yet. Work one out, then keep it here as a quote of a site.")
        link("quote", "To the quote on the screen →")
        return
    terms = terms_kept(store, [row.key for row in rows])
    with st.container(key="quotes", gap=None):
        for row in rows:
            _row(session, row, terms.get(row.key), chosen=row.quote == chosen)
            if row.quote == chosen:
                _versions(session, store, row)
    _pages(found)


def _asked(session: Session, store: Store, quote: str) -> list[Listed]:
    """Return the quote that a link led to, though this part of the list lacks it."""
    try:
        return [store.quotes.listed(quote)]
    except EstimatorError as error:
        session.problem = str(error)
        st.session_state[_LINKED] = ""
        return []


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
    st.session_state[_LINKED] = ""


def _row(session: Session, row: Listed, terms: Terms | None, *, chosen: bool) -> None:
    def choose() -> None:
        st.session_state[CHOSEN] = "" if chosen else row.quote

    title = row.title or row.site_name
    site = "" if row.site_name == title else row.site_name
    place = ", ".join(filter(None, (site, row.client_name)))
    late = row.status is Status.SENT and terms is not None and _is_over(terms)
    with st.container(key=f"quote-row-{row.quote}", horizontal=True, vertical_alignment="center"):
        st.button(
            plain(title),
            key=f"quote-{row.quote}",
            type="tertiary",
            icon=":material/expand_more:" if chosen else ":material/chevron_right:",
            on_click=choose,
        )
        st.html(
            f'<div class="cells"><span>{escape(place)}</span>'
            f'<span class="{row.status}{" expired" if late else ""}">'
            f"{row.status.capitalize()}{', expired' if late else ''}</span>"
            f"<span>{escape(row.date)}</span>"
            f"<span>{shown_area(row.treated, session.units)}</span>"
            f"<span>{escape(shown_money(row.total))}</span></div>"
        )


def _versions(session: Session, store: Store, row: Listed) -> None:
    versions = store.quotes.versions(row.quote)
    terms = terms_kept(store, [version.key for version in versions])
    with st.container(key="versions"):
        st.caption(f"Quote {row.key.called}")
        if told := unwritten((row.title, row.site_name, row.client_name)):
            st.warning(plain(told))
        for version in versions:
            counts = version.key == row.key
            _version(session, store, version, terms.get(version.key), counts=counts)
        visits_panel(session, store, row.quote)


def _version(
    session: Session, store: Store, version: Version, terms: Terms | None, *, counts: bool
) -> None:
    number = version.key.number
    with st.container(key=f"version-{number}", gap="xsmall"):
        said = [f"Version {number}", version.date, shown_money(version.total)]
        if terms is not None:
            said += _said(terms)
        if version.after not in (0, number - 1):
            said.append(f"made from version {version.after}")
        if version.note:
            said.append(version.note)
        if version.key == session.kept_as:
            said.append("on the screen")
        st.markdown(
            ("**{}** · {}" if counts else "{} · {}").format(said[0], plain(" · ".join(said[1:])))
        )
        with st.container(horizontal=True, vertical_alignment="center", gap="small"):
            _status(session, store, version)
            _take_away(session, store, version)


def _said(terms: Terms) -> Iterator[str]:
    """Yield deposit and validity."""
    if terms.deposit.amount:
        yield f"deposit {shown_money(terms.deposit)}"
    yield f"{'expired on' if _is_over(terms) else 'valid until'} {terms.valid_until}"


def _is_over(terms: Terms) -> bool:
    return terms.valid_until < datetime.now(UTC).date().isoformat()


def _status(session: Session, store: Store, version: Version) -> None:
    """Offer every status, so that one tap tells it and another takes it back."""
    key = f"status-{version.key.quote}-{version.key.number}"

    def take() -> None:
        look = look_for(session, version.key)
        try:
            tell_status(store, version.key, st.session_state[key], look)
        except EstimatorError as error:
            session.problem = str(error)

    if st.session_state.get(key) != version.status:  # told elsewhere meanwhile
        st.session_state[key] = version.status
    st.segmented_control(
        f"Status of version {version.key.number}",
        list(Status),
        required=True,
        format_func=str.capitalize,
        key=key,
        on_change=take,
        label_visibility="collapsed",
        wrap=True,
    )


def _take_away(session: Session, store: Store, version: Version) -> None:
    key, look = version.key, look_for(session, version.key)
    name = f"{key.called.lower()}-{key.number}"
    st.download_button(
        "PDF",
        lambda: _paper(session, store, key, look),
        file_name=f"quote-{name}.pdf",
        mime="application/pdf",
        icon=":material/download:",
        on_click="ignore",
        key=f"paper-{key.quote}-{key.number}",
        help="As it was sent, or, for a draft, as it would be sent now.",
    )
    st.button(
        f"Open version {key.number}",
        key=f"open-{key.quote}-{key.number}",
        on_click=open_version,
        args=(session, store, key),
        help="Goes on with this version as it was; keeping it makes another version.",
    )


def _paper(session: Session, store: Store, key: Key, look: Look) -> bytes:
    try:
        return kept_paper(store, key, look)
    except EstimatorError as error:
        session.problem = str(error)
        raise


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
