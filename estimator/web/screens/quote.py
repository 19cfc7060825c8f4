"""Quote: the price, what it rests on, and papers to take away."""

from collections.abc import Iterator

import streamlit as st

from estimator.documents.offered_price import payable
from estimator.documents.reader import Reader
from estimator.quantities import shown_area, shown_duration
from estimator.quantities.language import shown_day
from estimator.quantities.shown_money import shown_money
from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision
from estimator.web.cautions import caution_panel, unconfirmed_panel
from estimator.web.charts import drawn, price_chart, range_chart
from estimator.web.quote.downloads import downloads
from estimator.web.quote.terms import terms_panel
from estimator.web.state import Session, current
from estimator.web.tables import figures_table
from estimator.web.wording import figure, plain

_READER = Reader()


def show() -> None:
    """Show the price with the cautions for the offer, and what is agreed and taken away."""
    session = current()
    quote = session.quote
    if not quote:
        return
    left, right = st.columns([13, 7], gap="large")
    with left:
        _price(quote)
        _options(session, quote)
        _before_anyone_agrees(quote)
        st.subheader("How the price builds up")
        drawn(price_chart(quote.price), "Price line by line")
        _lines(quote)
        _assumptions(session, quote)
        _provenance(quote)
    with right:
        downloads(session, quote)
        terms_panel(session)


def _price(quote: Quote) -> None:
    price, likely, terms = quote.price, quote.range, quote.terms
    visit = ", each visit" if terms.visits > 1 else ""
    with st.container(key="price"):
        st.metric(
            f"The client pays{visit}, tax included",
            payable(price, likely, terms, _READER),
            width="content",
        )
        drawn(range_chart(price, likely), "Range of the price")
        st.caption(
            "Eight times in ten the work comes out within the band; the dot is this quote, the "
            "line the middle."
        )
        st.markdown(plain(" · ".join(_terms(quote))))
        if price.at_minimum:
            st.caption("The minimum charge decides this price.")


def _terms(quote: Quote) -> Iterator[str]:
    terms = quote.terms
    if terms.visits > 1:
        less = f", {_READER.share(float(terms.term_discount))} less" if terms.term_discount else ""
        every = f", one every {terms.every}" if terms.every else ""
        yield f"{terms.visits} visits{every}{less}: {shown_money(terms.term_total)} together"
    if terms.deposit.amount:
        yield f"Deposit {shown_money(terms.deposit)}"
    yield f"Valid until {shown_day(terms.valid_until)}"


def _options(session: Session, quote: Quote) -> None:
    if len(quote.options) < 2:
        return
    st.subheader("Options")
    figures_table(
        [
            {
                "Option": option.name,
                "Treated": shown_area(option.treated, session.units),
                "On site": shown_duration(option.on_site),
                "Client pays": payable(option.price, option.range, quote.terms, _READER),
            }
            for option in quote.options
        ],
        words=("Option",),
    )


def _before_anyone_agrees(quote: Quote) -> None:
    """Show cautions and what is unconfirmed under the price, before any paper is taken away."""
    if not quote.solution.unconfirmed:
        caution_panel(quote, Decision.QUOTE)
        return
    left, right = st.columns(2)
    with left:
        unconfirmed_panel(quote)
    with right:
        caution_panel(quote, Decision.QUOTE)


def _lines(quote: Quote) -> None:
    with st.expander("Every line"):
        figures_table(
            [
                {
                    "Line": line.label,
                    "Quantity": figure(line.quantity),
                    "Unit": line.unit,
                    "Rate": f"{line.rate:.1%}" if line.unit == "share" else figure(line.rate),
                    "Amount": shown_money(line.amount),
                }
                for line in quote.price.lines
            ],
            words=("Line", "Unit"),
        )


def _assumptions(session: Session, quote: Quote) -> None:
    st.subheader("What the quote assumes")
    if not quote.assumptions:
        st.markdown("Nothing was assumed about the plan.")
    lines = [f"- {plain(session.in_units(doubt.says))}" for doubt in quote.assumptions]
    st.markdown("\n".join(lines[:_FIRST]))
    if len(lines) > _FIRST:
        with st.expander(f"{len(lines) - _FIRST} more"):
            st.markdown("\n".join(lines[_FIRST:]))


_FIRST = 6


def _provenance(quote: Quote) -> None:
    made = quote.provenance
    st.caption(
        f"Reckoned on {shown_day(quote.date)} with version {made.version}, seed {made.seed}; plan "
        f"{made.plan_digest[:12]}, book {made.book_digest[:12]}, job {made.job_digest[:12]}."
    )
