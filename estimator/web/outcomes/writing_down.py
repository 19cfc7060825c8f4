"""What a visit really took, as the crew writes it down on a phone."""

from collections.abc import Mapping
from datetime import UTC, date, datetime

import streamlit as st
from attrs import evolve, field, frozen

from estimator.errors import EstimatorError
from estimator.estimation.figures import Figures, RoomFigures
from estimator.measures import Seconds
from estimator.quantities import Units, shown_duration
from estimator.quantities.shown import CREW_VOLUMES, figures
from estimator.store.store import Store
from estimator.store.values import KeptOutcome, Key, Listed, Search, Status
from estimator.web.heading import link
from estimator.web.state import Session
from estimator.web.wording import plain, told_apart
from estimator.workflow.comparing import quote_name
from estimator.workflow.firm_book import usable_book
from estimator.workflow.offers import figures_kept
from estimator.workflow.outcomes import Written, far_off, keep_outcome, outcome_of, written_in
from estimator.workflow.sheet_tables import sheet_table

QUOTE = "visit"
"""The parameter of the address that names the quote whose visit is written down."""

_SAYS, _KEPT = "outcome-says", "outcome-kept"
_OFFERED = 100
_NEW = "New visit"


@frozen(kw_only=True)
class _Visit:
    """A visit on the screen: its plan, and what stands in its fields at first.

    Parameters
    ----------
    text
        Tells one set of first figures from another, so that fields begin anew with each.
    """

    key: Key
    figures: Figures
    before: KeptOutcome | None
    text: str = ""
    rooms: Mapping[str, Written] = field(factory=dict)
    day: date
    crew: int
    minutes: float | None = None
    note: str = ""

    def field(self, name: str) -> str:
        """Return the key of a field, which begins anew for another visit or text of it."""
        return f"outcome-{self.key.quote}-{self.key.number}-{self.text}-{name}"


def writing_down(session: Session, store: Store) -> None:
    """Let the crew write down what a visit took, beside what the work sheet planned."""
    visit = _visit(session, store)
    if visit is None:
        return
    units = session.units
    visit = _from_sheet(visit, units)
    more = st.toggle(
        "Minutes of preparing and wiping, too", key=visit.field("more"), value=_has_more(visit)
    )
    with st.form(visit.field("form"), border=False):
        day, crew, minutes = _whole_visit(visit)
        written = {
            room.room: _room(visit, number, room, units, more=more)
            for number, room in enumerate(visit.figures.rooms, start=1)
        }
        note = st.text_area(
            "Remarks on the visit",
            visit.note,
            key=visit.field("note"),
            height=80,
        )
        sent = st.form_submit_button("Save what it took", type="primary", width="stretch")
    if says := st.session_state.pop(_SAYS, ""):
        st.success(plain(says))
        link("sites", "Look at it beside the quote →", quote=visit.key.quote)
    if not sent:
        return
    try:
        outcome = outcome_of(
            visit.figures,
            written,
            units,
            visited=day.isoformat(),
            crew=crew,
            minutes=minutes,
            note=note,
        )
        kept = keep_outcome(store, visit.key, outcome, visit.before)
        far = far_off(visit.figures, outcome, usable_book()[0])
    except EstimatorError as error:
        st.error(plain(str(error)))
        return
    says = "Saved."
    if far:
        says += f" Far from what was planned, please look again: {', '.join(far)}."
    st.session_state[_SAYS] = says
    # What was saved stays on the screen as what it is now, so that it is not saved twice.
    st.session_state[_KEPT] = kept.id
    st.rerun()


def _visit(session: Session, store: Store) -> _Visit | None:
    """Let a quote be chosen, and a visit to it; None where there is none."""
    quotes = _quotes(session, store)
    if not quotes:
        st.markdown("Keep a quote first; what its visit took is written down here.")
        link("sites", "Keep the work on the screen as one →")
        return None
    names = told_apart({quote: quote_name(one) for quote, one in quotes.items()})
    with st.container(key="outcome-visit", horizontal=True):
        quote = st.selectbox(
            "Visit to", list(names), format_func=names.__getitem__, key="outcome-quote"
        )
        kept = {one.id: one for one in reversed(store.outcomes.of(quote))}
        days = {one.id: f"{one.outcome.visited}, correct it" for one in kept.values()}
        days[_NEW] = _NEW
        key = f"outcome-which-{quote}"
        if (just := st.session_state.pop(_KEPT, "")) in kept:
            st.session_state[key] = just
        chosen = st.selectbox(
            "Which", [_NEW, *kept], format_func=days.__getitem__, key=key, disabled=not kept
        )
    before = kept.get(chosen)
    version = before.key if before else quotes[quote].key
    plan = figures_kept(store, [version]).get(version)
    if plan is None:
        st.error("What was planned for this visit cannot be read any more.")
        return None
    if before is None:
        today = datetime.now(UTC).date()
        crew = plan.work.crew
        return _Visit(key=version, figures=plan, before=None, day=today, crew=crew)
    outcome = before.outcome
    return _Visit(
        key=version,
        figures=plan,
        before=before,
        text=f"{before.id}-{before.version}",
        rooms=written_in(outcome, session.units),
        day=date.fromisoformat(outcome.visited),
        crew=outcome.crew,
        minutes=None if outcome.on_site is None else outcome.on_site / 60,
        note=outcome.note,
    )


def _from_sheet(visit: _Visit, units: Units) -> _Visit:
    """Take over what the work sheet on a phone saved, to be looked at before it is kept."""
    with st.expander("Take it from the work sheet on the phone"):
        st.caption("At its end the sheet saves what was used as a table; give that file here.")
        given = st.file_uploader("Table of the work sheet", type="csv", key=visit.field("sheet"))
        if given is None:
            return visit
        try:
            table = sheet_table(given.getvalue(), visit.figures, units)
        except EstimatorError as error:
            st.error(plain(str(error)))
            return visit
        if table.unread:
            st.warning(plain(f"Not understood: {', '.join(table.unread)}."))
    return evolve(
        visit,
        text=f"{visit.text}-{given.file_id}",
        rooms=table.rooms,
        crew=table.crew or visit.crew,
        minutes=table.minutes,
        note=table.note,
    )


def _quotes(session: Session, store: Store) -> dict[str, Listed]:
    """Return the quotes to choose from: the one of the address or the screen, accepted ones."""
    quotes = {}
    asked = st.query_params.get(QUOTE) or (session.kept_as.quote if session.kept_as else "")
    if asked:
        try:
            quotes[asked] = store.quotes.listed(asked)
        except EstimatorError as error:
            st.warning(plain(str(error)))
    for statuses in ((Status.ACCEPTED,), (Status.SENT, Status.DRAFT)):
        found = store.quotes.find(Search(statuses=statuses, most=_OFFERED))
        for one in found.rows:
            quotes.setdefault(one.quote, one)
    return quotes


def _whole_visit(visit: _Visit) -> tuple[date, int, float | None]:
    """Return the day, how many came, and the minutes on site."""
    with st.container(key="outcome-whole", horizontal=True):
        day = st.date_input("Day", visit.day, key=visit.field("day"))
        crew = st.number_input(
            "People", min_value=1, max_value=100, value=visit.crew, key=visit.field("crew")
        )
        planned = visit.figures.work.on_site
        minutes = _minutes(visit, "minutes", "Minutes on site", visit.minutes, planned)
    return day, int(crew), minutes


def _room(
    visit: _Visit,
    number: int,
    room: RoomFigures,
    units: Units,
    *,
    more: bool,
) -> Written:
    """Return what is written down about a room, beside what was planned."""
    unit, size = CREW_VOLUMES[units]
    told = visit.rooms.get(room.room, Written())
    liquid = figures(room.volume / size)
    planned = f"{liquid} {unit} · {shown_duration(room.spray)} spraying"
    if more and room.prepare:
        planned += f" · {shown_duration(room.prepare)} preparing"
    if more and room.wipe:
        planned += f" · {shown_duration(room.wipe)} wiping"
    with st.container(key=f"stop-{number}", gap="xsmall"):
        st.markdown(f"**{number}  {plain(room.name)}**  \n:gray[planned {plain(planned)}]")
        with st.container(key=f"stop-fields-{number}", horizontal=True, gap="small"):
            volume = _figure(visit, f"volume-{room.room}", f"{unit} sprayed", told.volume, liquid)
            minutes = _minutes(visit, f"time-{room.room}", "Minutes", told.minutes, room.spray)
            passes = st.number_input(
                "Passes",
                min_value=1,
                max_value=20,
                value=told.passes or room.passes,
                key=visit.field(f"passes-{room.room}"),
            )
            preparing, wiping = told.preparing, told.wiping
            if more:
                preparing = _minutes(
                    visit, f"prepare-{room.room}", "Preparing, min", preparing, room.prepare
                )
            if more and room.wiped:
                wiping = _minutes(visit, f"wipe-{room.room}", "Wiping, min", wiping, room.wipe)
            note = st.text_input(
                "Note", told.note, key=visit.field(f"note-{room.room}"), placeholder="nothing"
            )
    return Written(
        volume=volume,
        minutes=minutes,
        passes=int(passes),
        preparing=preparing,
        wiping=wiping,
        note=note,
    )


def _minutes(
    visit: _Visit, name: str, label: str, told: float | None, planned: Seconds
) -> float | None:
    """Return minutes that may stay empty; those planned are rounded as on the work sheet."""
    seconds = round(planned)
    whole = f"{round(seconds / 60):,}" if seconds >= 120 else figures(seconds / 60)
    return _figure(visit, name, label, told, whole)


def _figure(visit: _Visit, name: str, label: str, told: float | None, planned: str) -> float | None:
    """Return a figure that may stay empty; what was planned stands in it in grey."""
    return st.number_input(
        label,
        min_value=0.0,
        max_value=100_000.0,
        value=told,
        step=None,
        format="%.4g",
        placeholder=planned,
        key=visit.field(name),
    )


def _has_more(visit: _Visit) -> bool:
    rows = visit.rooms.values()
    return any(row.preparing is not None or row.wiping is not None for row in rows)
