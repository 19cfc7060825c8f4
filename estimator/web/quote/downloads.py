"""Papers and data to take away."""

import json
import re
from collections.abc import Callable

import streamlit as st

from estimator.documents.quote_json import quote_to_dict
from estimator.documents.quote_pdf import quote_pdf
from estimator.documents.tables import quote_xlsx, schedule_csv
from estimator.documents.unwritten import unwritten, words_of
from estimator.documents.worksheet_html import worksheet_html
from estimator.documents.worksheet_pdf import worksheet_pdf
from estimator.quote.quote import Quote
from estimator.quote.recipient import Recipient
from estimator.web.quote.addressing import address_line, addressed
from estimator.web.quote.papers import language_for, paper_choices, paper_of
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.files import plan_text


def downloads(session: Session, quote: Quote) -> None:
    """Offer every paper and file; each is made when it is asked for."""
    work, units = session.work, session.units
    plan, rates = work.plan, work.book.rates
    st.subheader("Take away")
    recipient = addressed(session, quote)
    address_line(session, recipient)
    paper_choices(session, of_work=True)
    language = language_for(session)
    papers: dict[tuple[str, str], Callable[[], str | bytes]] = {
        ("Quote", "quote.pdf"): lambda: _client_paper(session, quote, recipient),
        ("Work sheet", "work-sheet.pdf"): lambda: worksheet_pdf(plan, quote, units),
        ("Work sheet for a phone", "work-sheet.html"): lambda: worksheet_html(plan, quote, units),
        ("Workbook", "quote.xlsx"): lambda: quote_xlsx(
            quote, units, rates=rates, language=language, recipient=recipient
        ),
        ("Schedule", "schedule.csv"): lambda: schedule_csv(quote, units, language),
        ("Plan", "plan.json"): lambda: plan_text(plan),
        ("All figures", "quote.json"): lambda: _all_figures(quote, recipient),
    }
    with st.container(key="downloads", horizontal=True, gap="small"):
        for (label, ending), make in papers.items():
            _offer(plan.title, label, ending, make)
    _tell_unwritten(session, recipient)


def client_quote(session: Session, quote: Quote) -> None:
    """Offer the client's paper alone."""
    title = session.work.plan.title
    recipient = addressed(session, quote)
    with st.container(key="downloads", horizontal=True, gap="small"):
        _offer(title, "Quote", "quote.pdf", lambda: _client_paper(session, quote, recipient))
    _tell_unwritten(session, recipient)


def _tell_unwritten(session: Session, recipient: Recipient | None) -> None:
    if told := unwritten(words_of(session.work.plan, session.work.book.firm, recipient)):
        st.warning(plain(told))


def _client_paper(session: Session, quote: Quote, recipient: Recipient | None) -> bytes:
    return quote_pdf(
        session.work.plan,
        quote,
        session.units,
        firm=session.work.book.firm,
        language=language_for(session),
        paper=paper_of(session),
        recipient=recipient,
    )


def _offer(title: str, label: str, ending: str, make: Callable[[], str | bytes]) -> None:
    site = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-") or "site"
    kind = ending.rsplit(".", 1)[1]
    st.download_button(
        f"{label} · {kind.upper()}",
        make,
        file_name=f"{site}-{ending}",
        mime=_KINDS[kind],
        icon=":material/download:",
        on_click="ignore",
        key=f"take-{ending}",
        type="primary" if label == "Quote" else "secondary",
    )


_KINDS = {
    "pdf": "application/pdf",
    "html": "text/html",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "csv": "text/csv",
    "json": "application/json",
}


def _all_figures(quote: Quote, recipient: Recipient | None) -> str:
    told = quote_to_dict(quote, recipient)
    return json.dumps(told, indent=1, ensure_ascii=False, allow_nan=False)
