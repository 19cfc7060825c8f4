"""Firm: who offers, how its papers look, and its terms of business."""

from collections.abc import Callable

import streamlit as st
from attrs import evolve

from estimator.catalogue.logo import MOST_BYTES
from estimator.errors import EstimatorError
from estimator.quantities.language import Language
from estimator.quote.firm import BusinessTerms, Firm
from estimator.web.heading import page_heading
from estimator.web.quote.papers import LANGUAGES, language_of_papers, paper_choices, paper_of
from estimator.web.state import Session, current
from estimator.web.wording import plain
from estimator.workflow.firm import firm_with_logo, keep_firm
from estimator.workflow.showing import first_page

_GIVEN = "firm-given"


def show() -> None:
    """Show the fields of the firm beside the first page of the quote as it would look."""
    session = current()
    page_heading(
        "Firm",
        "What stands on every paper for clients. Quotes that are kept stay as they were sent.",
    )
    if done := st.session_state.pop("firm-done", ""):
        st.success(done)
    left, right = st.columns([10, 9], gap="large")
    with left:
        given = _fields(session.work.book.firm)
        try:
            firm = given()
        except EstimatorError as error:
            st.error(plain(str(error)))
            firm = None
        _save(session, firm)
    with right:
        _preview(session, firm)


def _fields(firm: Firm) -> Callable[[], Firm]:
    """Show the fields and return what makes a firm of them."""
    name = st.text_input("Name", firm.name, key="firm-name")
    registration = st.text_input(
        "What the law asks a firm to say, such as its licence", firm.registration, key="firm-reg"
    )
    one, two = st.columns(2)
    address = one.text_area("Address", "\n".join(firm.address), key="firm-address", height=96)
    contact = two.text_area(
        "Telephone and mail", "\n".join(firm.contact), key="firm-contact", height=96
    )
    file = st.file_uploader(
        "Logo, PNG or JPEG",
        type=["png", "jpg", "jpeg"],
        max_upload_size=MOST_BYTES // 1_000_000,
        key="firm-logo",
    )
    no_logo = bool(firm.logo) and st.checkbox("No logo", key="firm-no-logo")
    ink_at, accent_at = st.columns(2)
    ink = ink_at.color_picker("Colour of text", firm.ink, key="firm-ink")
    accent = accent_at.color_picker("Colour of headings", firm.accent, key="firm-accent")
    st.markdown("**Terms of business**, a paragraph each, in every language you offer in")
    terms = {}
    for tab, language in zip(st.tabs(list(LANGUAGES.values())), LANGUAGES, strict=True):
        terms[language] = tab.text_area(
            f"Terms in {LANGUAGES[language]}",
            "\n\n".join(getattr(firm.terms, language.value)),
            key=f"firm-terms-{language.value}",
            height=220,
            label_visibility="collapsed",
        )

    def made() -> Firm:
        drawn = evolve(firm, logo=None) if no_logo else firm
        return firm_with_logo(
            evolve(
                drawn,
                name=name.strip(),
                registration=registration.strip(),
                address=_lines(address),
                contact=_lines(contact),
                ink=ink.lower(),
                accent=accent.lower(),
                terms=BusinessTerms(**{one.value: _lines(terms[one]) for one in Language}),
            ),
            file.getvalue() if file else None,
            file.name if file else "",
        )

    return made


def _lines(text: str) -> tuple[str, ...]:
    return tuple(line for line in map(str.strip, text.splitlines()) if line)


def _save(session: Session, firm: Firm | None) -> None:
    changed = firm is not None and firm != session.work.book.firm
    with st.container(key="firm-save", horizontal=True, vertical_alignment="center"):
        if st.button("Save", type="primary", disabled=not changed, key="firm-keep") and firm:
            try:
                kept = keep_firm(firm)
            except EstimatorError as error:
                st.error(plain(str(error)))
                return
            session.change(
                lambda work: evolve(work, book=evolve(work.book, firm=kept.firm)), anew=False
            )
            st.session_state["firm-done"] = "Saved. Papers from now on look like this."
            st.rerun()
        if not changed and firm is not None:
            st.caption("Nothing is changed.")


def _preview(session: Session, firm: Firm | None) -> None:
    paper_choices(session)
    if firm is None or not session.quote:
        return
    picture = first_page(
        session.work.plan,
        session.quote,
        session.units,
        firm=firm,
        language=language_of_papers(),
        paper=paper_of(session),
    )
    with st.container(key="firm-preview"):
        st.image(picture, caption="The first page of the quote on your screen", width="stretch")
