"""Visit: how many people, in which order, how long, and when anyone may come back."""

from collections.abc import Sequence

import streamlit as st

from estimator.quantities import Units, shown_duration
from estimator.quantities.tokens import FOOT
from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision
from estimator.visit.sharing import usual_sprayers
from estimator.visit.timetable import Timetable
from estimator.web.cautions import caution_panel, unconfirmed_panel
from estimator.web.charts import drawn
from estimator.web.gantt import by_person, by_room, key
from estimator.web.state import Session, current
from estimator.web.tables import figures_table
from estimator.web.wording import plain, told_apart

MOST_PEOPLE = 20

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
    edition = session.edition

    def take_crew() -> None:
        session.set_job(crew=int(st.session_state[f"crew-{edition}"]), sprayers=None)

    def take_sprayers() -> None:
        session.set_job(sprayers=int(st.session_state[f"sprayers-{edition}-{job.crew}"]))

    def take_road() -> None:
        session.set_job(
            distance=2 * st.session_state[f"distance-{edition}"] * mile,
            road_time=2 * 60 * st.session_state[f"road-{edition}"],
        )

    mile = _ROAD[session.units][1]
    job = session.work.job
    st.number_input(
        "People on site", 1, MOST_PEOPLE, job.crew, key=f"crew-{edition}", on_change=take_crew
    )
    st.number_input(
        "Of them spraying, each with a sprayer",
        1,
        job.crew,
        job.sprayers or usual_sprayers(job.crew),
        key=f"sprayers-{edition}-{job.crew}",
        on_change=take_sprayers,
    )
    st.number_input(
        f"Way to the site, {_ROAD[session.units][0]}",
        0.0,
        value=job.distance / 2 / mile,
        step=1.0,
        format="%.0f",
        key=f"distance-{edition}",
        on_change=take_road,
    )
    st.number_input(
        "Drive to the site, minutes",
        0.0,
        value=job.road_time / 120,
        step=5.0,
        format="%.0f",
        key=f"road-{edition}",
        on_change=take_road,
    )
