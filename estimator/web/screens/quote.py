"""Quote: the price, what it rests on, and papers to take away."""

from decimal import Decimal

import streamlit as st

from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision
from estimator.web.cautions import caution_panel, unconfirmed_panel
from estimator.web.charts import drawn, price_chart, range_chart
from estimator.web.downloads import downloads
from estimator.web.state import Session, current
from estimator.web.tables import figures_table
from estimator.web.wording import figure, plain


def show() -> None:
    """Show the price beside the cautions for the offer."""
    session = current()
    quote = session.quote
    if not quote:
        return
    left, right = st.columns([13, 7], gap="large")
    with left:
        _price(quote)
        st.subheader("How the price builds up")
        drawn(price_chart(quote.price), "Price line by line")
        _lines(quote)
        _assumptions(quote)
        _provenance(quote)
    with right:
        downloads(session, quote)
        _discount(session)
        unconfirmed_panel(quote)
        caution_panel(quote, Decision.QUOTE)


def _price(quote: Quote) -> None:
    with st.container(key="price"):
        st.metric("The client pays, tax included", str(quote.price.total), width="content")
        drawn(range_chart(quote.price, quote.range), "Range of the price")
        st.caption(
            "Eight times in ten the work comes out within the band; the dot is this quote, the "
            "line the middle."
        )
        if quote.price.at_minimum:
            st.caption("The minimum charge decides this price.")


def _lines(quote: Quote) -> None:
    price = quote.price
    with st.expander("Every line"):
        figures_table(
            [
                {
                    "Line": line.label,
                    "Quantity": figure(line.quantity),
                    "Unit": line.unit,
                    "Rate": f"{line.rate:.1%}" if line.unit == "share" else figure(line.rate),
                    "Amount": str(line.amount),
                }
                for line in price.lines
            ],
            words=("Line", "Unit"),
        )


def _assumptions(quote: Quote) -> None:
    st.subheader("What the quote assumes")
    if not quote.assumptions:
        st.markdown("Nothing was assumed about the plan.")
    lines = [f"- {plain(doubt.says)}" for doubt in quote.assumptions]
    st.markdown("\n".join(lines[:_FIRST]))
    if len(lines) > _FIRST:
        with st.expander(f"{len(lines) - _FIRST} more"):
            st.markdown("\n".join(lines[_FIRST:]))


_FIRST = 6


def _provenance(quote: Quote) -> None:
    made = quote.provenance
    st.caption(
        f"Reckoned {quote.date} with version {made.version}, seed {made.seed}; plan "
        f"{made.plan_digest[:12]}, book {made.book_digest[:12]}, job {made.job_digest[:12]}."
    )


def _discount(session: Session) -> None:
    key = f"discount-{session.edition}"

    def take() -> None:
        session.set_job(discount=Decimal(str(st.session_state[key])) / 100)

    st.number_input(
        "Discount, %",
        0.0,
        100.0,
        float(session.work.job.discount * 100),
        step=1.0,
        format="%.1f",
        key=key,
        on_change=take,
    )
