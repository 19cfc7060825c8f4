"""The strip of totals that stands on every screen."""

import streamlit as st

from estimator.quantities import shown_area, shown_concentration, shown_duration, shown_volume
from estimator.quantities.counted import counted
from estimator.quantities.shown_money import shown_money
from estimator.quote.quote import Quote
from estimator.web.asking import ask_next, asked
from estimator.web.state import Session


def totals_strip(session: Session) -> None:
    """Show floor, surface, solution, time and price of the job as it stands."""
    quote = session.quote
    with st.container(key="totals", horizontal=True, gap="medium"):
        for label, value, note in _figures(quote, session) if quote else _nothing():
            st.metric(label, value, note, delta_color="off", delta_arrow="off", width="content")
        if quote and (questions := asked(quote)):
            with st.popover("Narrow it", icon=":material/help:", key="ask-next", width="content"):
                st.subheader("What would narrow the price")
                ask_next(session, questions)


def _figures(quote: Quote, session: Session) -> tuple[tuple[str, str, str], ...]:
    units = session.units
    schedule, solution, timetable = quote.schedule, quote.solution, quote.timetable
    strengths = " · ".join(shown_concentration(mix.wanted) for mix in solution.mixes)
    return (
        (
            "Floor area",
            shown_area(schedule.floor_area, units),
            counted(len(schedule.rooms), "room"),
        ),
        (
            "Surface treated",
            shown_area(schedule.treated, units),
            "all that is sprayed",
        ),
        ("Solution", shown_volume(solution.volume, units), strengths or "none"),
        (
            "Time on site",
            shown_duration(timetable.on_site),
            f"{counted(timetable.crew, 'person', 'people')} · "
            f"{shown_duration(timetable.person_time)} of work",
        ),
        (
            "Price",
            shown_money(quote.price.total),
            f"likely {shown_money(quote.range.p10)} to {shown_money(quote.range.p90)}",
        ),
    )


def _nothing() -> tuple[tuple[str, str, str], ...]:
    labels = ("Floor area", "Surface treated", "Solution", "Time on site", "Price")
    return tuple((label, "–", "not yet") for label in labels)
