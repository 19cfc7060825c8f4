"""Rates: what the firm pays and charges, and what a change of it does to open quotes."""

import streamlit as st
from attrs import evolve, frozen

from estimator.catalogue.loader import packaged_book
from estimator.errors import BadEntries, EstimatorError, StaleVersion
from estimator.estimation.book import Book
from estimator.estimation.effect import Change, Effect, effect
from estimator.web.heading import page_heading
from estimator.web.rates.effects import effects_table
from estimator.web.rates.sheet import Sheet, begin_anew, edit, sheet
from estimator.web.state import Session, current
from estimator.web.wording import plain
from estimator.workflow.firm_book import FILE, book_with, firm_book, firm_text, text_of
from estimator.workflow.rates import Reach, keep_changed, reach
from estimator.workflow.storing import store

_PREVIEW, _DONE, _GIVEN = "rates-preview", "rates-done", "rates-given"


@frozen(kw_only=True, eq=False)
class _Preview:
    """What a text does to the work on the screen and to open quotes."""

    text: str
    change: Change
    own: Effect | None
    reach: Reach


def show() -> None:
    """Show the rates in fields and tables, and what a change of them does before it is kept."""
    session = current()
    page_heading(
        "Rates",
        "Your own figures take the place of those that come with the estimator. What a quote was "
        "made with stays with it.",
    )
    if done := st.session_state.pop(_DONE, ""):
        st.success(done)
    try:
        made = sheet()
    except EstimatorError as error:
        st.error(plain(str(error)))
        _file(firm_text())
        return
    edit(made)
    made.source = st.text_input("Where the figures come from", made.source, key=made.key("source"))
    _save(session, made)
    _file(made.after)


def _save(session: Session, made: Sheet) -> None:
    text = made.text
    changed = text != made.after
    with st.container(key="rates-save", horizontal=True, vertical_alignment="center"):
        asked = st.button(
            "Show what this changes", disabled=not changed, key="rates-show", type="primary"
        )
        if changed and st.button("Take back", key="rates-back"):
            begin_anew(firm_text())
            st.session_state.pop(_PREVIEW, None)
            st.rerun()
        if not changed:
            st.caption("Nothing is changed.")
    if asked:
        st.session_state.pop(_PREVIEW, None)
        try:
            st.session_state[_PREVIEW] = _previewed(session, text)
        except EstimatorError as error:
            _say_mistakes(error)
    preview: _Preview | None = st.session_state.get(_PREVIEW)
    if preview and preview.text == text:
        _show(session, made, preview)


def _previewed(session: Session, text: str) -> _Preview:
    change = Change(before=_book_now(), after=book_with(text))
    work, quote, own = session.work, session.quote, None
    if quote:
        own = effect(
            work.plan, work.book, work.job, change, date=quote.date, total=quote.price.total
        )
    bar = st.progress(0.0, "Open quotes are reckoned anew")
    found = reach(store(), change, bar.progress)
    bar.empty()
    return _Preview(text=text, change=change, own=own, reach=found)


def _book_now() -> Book:
    try:
        return firm_book()
    except EstimatorError:
        return packaged_book()


def _say_mistakes(error: EstimatorError) -> None:
    """Say what is wrong, each mistake on a line of its own."""
    if not isinstance(error, BadEntries):
        st.error(plain(str(error)))
        return
    count, _, mistakes = error.problem.partition(": ")
    lines = mistakes.removeprefix(f"{FILE}, ").split(f"; {FILE}, ")
    st.error("\n- ".join([f"{plain(count)}; nothing was kept:\n", *map(plain, lines)]))


def _show(session: Session, made: Sheet, preview: _Preview) -> None:
    st.subheader("What this does to open quotes")
    title = session.work.plan.title or "Untitled site"
    effects_table(preview.reach, (title, preview.own) if preview.own else None)
    also = preview.own is not None and st.checkbox(
        "Reckon the work on the screen with the new rates", value=True, key="rates-also"
    )
    if st.button("Save the rates", type="primary", key="rates-keep"):
        try:
            keep_changed(preview.text, after=made.after)
        except StaleVersion as error:
            st.error(f"{plain(str(error))} What you typed is still here.")
            made.lay_over(firm_text())
            return
        except EstimatorError as error:
            _say_mistakes(error)
            return
        if also:
            change = preview.change
            session.change(lambda work: evolve(work, book=change.made_in(work.book)))
        begin_anew(preview.text)
        st.session_state.pop(_PREVIEW, None)
        st.session_state[_DONE] = "The rates are saved. New quotes are made with them."
        st.rerun()


def _file(text: str) -> None:
    with st.expander("The book as a file"):
        st.markdown(
            "Your rates are a TOML file that any editor opens. Laid over the packaged book, it may "
            "hold every section: products, furniture, room uses, strengths and more."
        )
        st.download_button(
            "Download your rates",
            text or "# Rows of your own go here.\n",
            FILE,
            "application/toml",
            disabled=not text,
            key="rates-download",
        )
        given = st.file_uploader("Put a file in its place", type=["toml"], key="rates-upload")
        if given and st.session_state.get(_GIVEN) != given.file_id:
            try:
                begin_anew(firm_text(), text=text_of(given.getvalue()))
            except EstimatorError as error:
                st.error(plain(str(error)))
                return
            st.session_state[_GIVEN] = given.file_id
            st.rerun()
