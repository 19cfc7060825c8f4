"""Quotes side by side: choosing them, ranking them, what stands out, what they come to together."""

from collections.abc import Callable, Sequence
from statistics import median

import streamlit as st

from estimator.documents.unwritten import unwritten
from estimator.errors import EstimatorError
from estimator.estimation.comparison import (
    FEWEST,
    OF_MONEY,
    Measure,
    Portfolio,
    outliers,
    portfolio,
    ranked,
    value_of,
)
from estimator.estimation.figures import Figures
from estimator.price.charging import margin
from estimator.quantities import (
    Units,
    shown_area,
    shown_duration,
    shown_film,
    shown_share,
    shown_volume,
)
from estimator.quantities.counted import counted
from estimator.quantities.per_area import shown_price_per_area, shown_time_per_area
from estimator.quantities.shown import figures as shown_figures
from estimator.quantities.shown_money import shown_money
from estimator.store.store import Store
from estimator.store.values import Listed, Search
from estimator.web.charts import drawn
from estimator.web.compare.compared_charts import Bar, ranking_chart
from estimator.web.quote.papers import language_of_papers, paper_choices, paper_of
from estimator.web.state import Session
from estimator.web.tables import figures_table
from estimator.web.wording import plain, told_apart
from estimator.workflow.comparing import MOST_COMPARED, Compared, one_document, quote_name
from estimator.workflow.firm_book import usable_book

_CHOSEN, _KNOWN = "compare-quotes", "compare-known"
_AT_FIRST = 8
"""So many of the latest quotes are compared before anyone chose."""

_TITLES = {
    one: one.value.capitalize()
    for one in sorted(Measure, key=lambda one: one is not Measure.PRICE_PER_SURFACE)
}
"""Measures, the one that quotes are first compared by before the others."""

SHOWN: dict[Measure, Callable[[Figures, float, Units], str]] = {
    Measure.FLOOR_AREA: lambda _, value, units: shown_area(value, units),
    Measure.TREATED: lambda _, value, units: shown_area(value, units),
    Measure.SURFACE_PER_FLOOR: lambda _, value, __: f"{shown_figures(value)} ×",
    Measure.VOLUME: lambda _, value, units: shown_volume(value, units),
    Measure.FILM: lambda _, value, units: shown_film(value, units),
    Measure.ON_SITE: lambda _, value, __: shown_duration(value),
    Measure.PACE: lambda _, value, units: shown_time_per_area(value, units),
    Measure.TOTAL: lambda one, _, __: shown_money(one.total),
    Measure.PRICE_PER_FLOOR: lambda one, value, units: shown_price_per_area(
        value, one.currency, units
    ),
    Measure.PRICE_PER_SURFACE: lambda one, value, units: shown_price_per_area(
        value, one.currency, units
    ),
    Measure.MARGIN: lambda _, value, __: _signed_share(value),
}
"""How a measure of a site is shown."""


def chooser(store: Store) -> tuple[Listed, ...]:
    """Let quotes be found and chosen, and return the chosen ones."""
    with st.container(key="compare-search", horizontal=True, vertical_alignment="bottom"):
        words = st.text_input(
            "Find", placeholder="Words of the quote, site, address or client", key="compare-words"
        )
        found = store.quotes.find(Search(words=words, most=MOST_COMPARED))
        known: dict[str, Listed] = st.session_state.setdefault(_KNOWN, {})
        known.update({one.quote: one for one in found.rows})
        if _CHOSEN not in st.session_state:
            st.session_state[_CHOSEN] = [one.quote for one in found.rows[:_AT_FIRST]]

        def add() -> None:
            chosen = [*st.session_state[_CHOSEN], *(one.quote for one in found.rows)]
            st.session_state[_CHOSEN] = list(dict.fromkeys(chosen))[:MOST_COMPARED]

        def clear() -> None:
            st.session_state[_CHOSEN] = []

        st.button(f"Add {len(found.rows):,} found", on_click=add, disabled=not found.rows)
        st.button("Clear", on_click=clear, disabled=not st.session_state[_CHOSEN])
    offered = dict.fromkeys([*st.session_state[_CHOSEN], *(one.quote for one in found.rows)])
    names = told_apart({quote: quote_name(known[quote]) for quote in offered if quote in known})
    with st.container(key="compare-chosen"):
        chosen = st.multiselect(
            "Quotes compared",
            list(names),
            format_func=names.__getitem__,
            key=_CHOSEN,
            placeholder="Choose quotes",
        )
    if found.count > len(found.rows):
        st.caption(f"{found.count:,} match; the latest {len(found.rows):,} are offered.")
    return tuple(known[quote] for quote in chosen)


def ranking(quotes: Sequence[Compared], units: Units) -> tuple[int, ...]:
    """Show the quotes as bars by a measure of choice and return their places, greatest first."""
    measure = st.selectbox(
        "Compared by",
        list(_TITLES),
        format_func=_TITLES.__getitem__,
        key="compare-by",
        width=300,
    )
    sites = [one.figures for one in quotes]
    names = _names(quotes)
    order = ranked(sites, measure)
    alike = _of_one_currency(sites) if measure in OF_MONEY else set(range(len(sites)))
    unusual = {one.site for one in outliers(sites) if one.measure is measure}
    values = {at: value_of(sites[at], measure) for at in order if at in alike}
    bars = [
        Bar(
            name=names[at],
            value=value,
            label=SHOWN[measure](sites[at], value, units),
            unusual=at in unusual,
        )
        for at, value in values.items()
    ]
    usual = median(values.values()) if len(values) >= FEWEST else None
    drawn(ranking_chart(bars, usual), f"Quotes by {measure}")
    if len(alike) < len(sites):
        st.caption(
            f"{counted(len(sites) - len(alike), 'quote')} in another currency "
            "cannot be drawn beside these."
        )
    elif usual is not None:
        st.caption("The dashed line is the middle of all.")
    return order


def every_measure(quotes: Sequence[Compared], order: Sequence[int], units: Units) -> None:
    """Show all measures of the quotes in an order."""
    names = _names(quotes)
    figures_table(
        [
            {"Quote": names[at]}
            | {_TITLES[one]: _shown(quotes[at].figures, one, units) for one in Measure}
            for at in order
        ],
        words=("Quote",),
    )
    unconfirmed = [plain(names[at]) for at in order if quotes[at].figures.provisional]
    if unconfirmed:
        whose = "all of these" if len(unconfirmed) == len(quotes) else ", ".join(unconfirmed)
        st.caption(f"Provisional until label and sprayer's papers are confirmed: {whose}.")


def standing_out(quotes: Sequence[Compared], units: Units) -> None:
    """Say which sites stand out in what, and by how much."""
    st.subheader("What stands out")
    sites, names = [one.figures for one in quotes], _names(quotes)
    if len(sites) < FEWEST:
        st.markdown(
            f"Of {counted(len(sites), 'quote')} nothing can be said; choose at least {FEWEST}."
        )
        return
    found = outliers(sites)
    if not found:
        st.markdown("Nothing: all lie as close together as quotes do.")
    for one in found:
        shown = SHOWN[one.measure]
        value, usual = (shown(sites[one.site], each, units) for each in (one.value, one.usual))
        side = "high" if one.score > 0 else "low"
        st.markdown(
            f"- **{plain(names[one.site])}**: {side} {one.measure}, {plain(value)}; "
            f"the middle is {plain(usual)}."
        )
    st.caption(
        "By the modified z-score of Iglewicz and Hoaglin (1993): more than 3.5 robust standard "
        "deviations from the middle."
    )


def together(quotes: Sequence[Compared], units: Units) -> None:
    """Show what all quotes come to."""
    st.subheader("Together")
    whole = portfolio([one.figures for one in quotes])
    with st.container(key="portfolio", horizontal=True, gap="medium"):
        for label, value in _portfolio(whole, units):
            st.metric(label, value, width="content")


def document(session: Session, store: Store, quotes: Sequence[Compared]) -> None:
    """Offer one document of all quotes, made when it is asked for."""
    with st.expander("One document of all these quotes"):
        paper_choices(session)
        title = st.text_input("Title", placeholder="Whose sites they are", key="portfolio-title")
        if not st.button("Make it", key="portfolio-make"):
            return
        try:
            with st.spinner("Every quote is made again from what it was kept with"):
                made = one_document(
                    store,
                    quotes,
                    session.units,
                    firm=usable_book()[0].firm,
                    language=language_of_papers(),
                    paper=paper_of(session),
                    title=title.strip(),
                )
        except EstimatorError as error:
            st.error(plain(str(error)))
            return
        if told := unwritten([title, *(one.site_name for one in quotes)]):
            st.warning(plain(told))
        st.download_button(
            "All quotes · PDF",
            made,
            file_name="quotes.pdf",
            mime="application/pdf",
            icon=":material/download:",
            on_click="ignore",
            type="primary",
        )


def _portfolio(whole: Portfolio, units: Units) -> tuple[tuple[str, str], ...]:
    return (
        ("Quotes", f"{whole.sites:,}"),
        ("Floor area", shown_area(whole.floor_area, units)),
        ("Surface treated", shown_area(whole.treated, units)),
        ("Solution", shown_volume(whole.volume, units)),
        ("Working time", shown_duration(whole.person_time)),
        *(("All prices", shown_money(total)) for total in whole.totals),
        *(
            ("Margin of all", _signed_share(float(margin(charge, cost))))
            for charge, cost in zip(whole.charges, whole.costs, strict=True)
            if charge.amount
        ),
    )


def _names(quotes: Sequence[Compared]) -> list[str]:
    return list(told_apart({str(at): one.name for at, one in enumerate(quotes)}).values())


def _shown(figures: Figures, measure: Measure, units: Units) -> str:
    return SHOWN[measure](figures, value_of(figures, measure), units)


def _of_one_currency(sites: Sequence[Figures]) -> set[int]:
    """Return the places of the sites in the currency that most of them are in."""
    currencies = [one.currency for one in sites]
    most = max(currencies, key=currencies.count)
    return {at for at, currency in enumerate(currencies) if currency == most}


def _signed_share(share: float) -> str:
    return shown_share(share) if share >= 0 else f"−{shown_share(-share)}"
