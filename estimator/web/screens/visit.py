"""Visit: how many people, in which order, how long, and when anyone may come back."""

from collections.abc import Callable, Sequence
from typing import Any

import streamlit as st
from attrs import evolve

from estimator.errors import EstimatorError
from estimator.quantities import Units, quantity, shown_duration
from estimator.quantities.journeys import journey
from estimator.quantities.tokens import FOOT
from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision
from estimator.visit.plan import check_crew
from estimator.visit.sharing import usual_sprayers
from estimator.visit.timetable import Timetable
from estimator.web.cautions import caution_panel, unconfirmed_panel
from estimator.web.charts import drawn
from estimator.web.fields import typed
from estimator.web.gantt import by_person, by_room, key
from estimator.web.state import Session, current
from estimator.web.tables import figures_table
from estimator.web.wording import plain, told_apart
from estimator.workflow.work import Work

_NAMED = 6
"""In more rooms than these a precaution is counted, not listed."""

_ROAD = {Units.METRIC: ("km", 1000.0), Units.US: ("miles", 5280 * FOOT)}


def show() -> None:
    """Show the timetable beside the cautions for the visit."""
    session = current()
    quote = session.quote
    if not quote:
        return
    names = told_apart({room.room: room.name for room in quote.schedule.rooms})
    left, right = st.columns([13, 7], gap="large")
    with left:
        for finding in quote.timetable.findings:
            st.warning(plain(finding))
        st.subheader("Who does what")
        st.html(key(quote.timetable))
        drawn(by_person(quote.timetable, names), "Timetable of each person")
        st.caption(_how_short(quote.timetable))
        st.subheader("What happens in each room")
        drawn(by_room(quote.timetable, names), "Timetable of each room")
        st.caption("People return no sooner than the red mark, and only when the label allows it.")
        _order(quote, names)
    with right:
        _choices(session)
        unconfirmed_panel(quote)
        _precautions(quote, names)
        caution_panel(quote, Decision.VISIT)


def _how_short(timetable: Timetable) -> str:
    """Return how near the timetable is to the shortest that could be."""
    more = round(100 * (timetable.over_bound - 1))
    nearness = f"at most {more} % more than" if more else "as short as"
    return (
        f"{shown_duration(timetable.on_site)} on site, {nearness} any order of the work by this "
        f"crew could take ({shown_duration(timetable.lower_bound)} at the least)."
    )


def _precautions(quote: Quote, names: dict[str, str]) -> None:
    """Show what to mask, remove or switch off, and where."""
    if not quote.timetable.precautions:
        return
    everywhere = len(set(quote.timetable.order))

    def where(rooms: Sequence[str], mark: str) -> str:
        if len(rooms) == everywhere:
            return "In every room"
        if len(rooms) > _NAMED:
            return f"In {len(rooms)} rooms, marked {mark} on the work sheet"
        return ", ".join(names[room] for room in rooms)

    with st.container(key="cautions-mask"):
        st.subheader("What to mask, remove or switch off")
        st.markdown(
            "\n".join(
                f"- **{plain(where(rooms, one.mark))}:** {plain(one.says)}."
                for one, rooms in quote.timetable.precautions
            )
        )
        with st.expander("Who says so"):
            st.markdown(
                "\n".join(
                    f"- {plain(one.says.split(':')[0])}: {plain(one.source)}"
                    for one, _ in quote.timetable.precautions
                )
            )


def _order(quote: Quote, names: dict[str, str]) -> None:
    st.subheader("Order and return")
    back = {one.room: one for one in quote.timetable.reentry}
    figures_table(
        [
            {
                "No.": f"{number}",
                "Room": names[room],
                "Back no sooner than": f"{shown_duration(back[room].at)} after arrival"
                if room in back
                else "as the label says",
            }
            for number, room in enumerate(dict.fromkeys(quote.timetable.order), start=1)
        ],
        words=("No.", "Room"),
    )
    rooms_of: dict[str, list[str]] = {}
    for one in quote.timetable.reentry:
        rooms_of.setdefault(one.because, []).append(names[one.room])
    for because, rooms in rooms_of.items():
        where = "Every room" if len(rooms) == len(back) else ", ".join(rooms)
        st.caption(f"{plain(where)}: {plain(because)}.")


def _choices(session: Session) -> None:
    st.subheader("The crew")
    job, edition = session.work.job, session.edition
    _people(
        session,
        f"crew-{edition}",
        "People on site",
        job.crew,
        lambda people: {"crew": people, "sprayers": None},
    )
    _people(
        session,
        f"sprayers-{edition}-{job.crew}",
        "Of them spraying, each with a sprayer",
        job.sprayers or usual_sprayers(job.crew),
        lambda people: {"sprayers": people},
    )
    unit, metres = _ROAD[session.units]
    typed(
        session,
        "distance",
        "Way to the site",
        f"{job.distance / 2 / metres:.4g} {unit}",
        lambda text: _with(distance=2 * journey(text)),
        example=f"12 {unit}",
    )
    typed(
        session,
        "road",
        "Drive to the site",
        f"{job.road_time / 120:.4g} min",
        lambda text: _with(road_time=2 * quantity(text, "s")),
        example="25 min",
    )


def _people(
    session: Session, key: str, label: str, count: int, choice: Callable[[int], dict[str, Any]]
) -> None:
    """Ask for a number of people, and say beneath it why some other could not be."""
    said = f"{key}-says"

    def take() -> None:
        st.session_state.pop(said, None)
        job = evolve(session.work.job, **choice(int(st.session_state[key] or 0)))
        try:
            check_crew(job.crew, job.sprayers)
        except EstimatorError as error:
            st.session_state[said] = str(error)
            return
        session.change(lambda work: evolve(work, job=job), anew=False)

    st.number_input(label, value=count, step=1, key=key, on_change=take)
    if said in st.session_state:
        st.error(plain(st.session_state[said]))


def _with(**choices: Any) -> Callable[[Work], Work]:
    return lambda work: evolve(work, job=evolve(work.job, **choices))
