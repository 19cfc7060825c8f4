"""What a visit really took, as the crew writes it down on a phone."""

from datetime import UTC, date, datetime

import streamlit as st
from attrs import frozen

from estimator.errors import EstimatorError
from estimator.estimation.figures import Figures, RoomFigures
from estimator.quantities import Units, shown_duration, shown_volume
from estimator.quantities.shown import CREW_VOLUMES
from estimator.store.store import Store
from estimator.store.values import KeptOutcome, Key, Listed, Search, Status
from estimator.web.state import Session
from estimator.web.wording import plain, told_apart
from estimator.workflow.comparing import quote_name
from estimator.workflow.measuring import standard_book
from estimator.workflow.offers import figures_kept
from estimator.workflow.outcomes import Written, far_off, keep_outcome, outcome_of, written_in

QUOTE = "visit"
"""The parameter of the address that names the quote whose visit is written down."""

_SAVED = "outcome-saved"
_OFFERED = 100
_NEW = "New visit"


@frozen(kw_only=True)
class _Visit:
    """A visit on the screen: its plan, and what was written down of it before."""

    key: Key
    figures: Figures
    before: KeptOutcome | None

    def field(self, name: str) -> str:
        """Return the key of a field, which begins anew for another visit or text of it."""
        text = f"{self.before.id}-{self.before.version}" if self.before else "new"
        return f"outcome-{self.key.quote}-{self.key.number}-{text}-{name}"


def writing_down(session: Session, store: Store) -> None:
    """Let the crew write down what a visit took, beside what the work sheet planned."""
    if says := st.session_state.pop(_SAVED, ""):
        st.success(plain(says))
    visit = _visit(session, store)
    if visit is None:
        return
    units = session.units
    more = st.toggle(
        "Minutes of preparing and wiping, too", key=visit.field("more"), value=_has_more(visit)
    )
    with st.form(visit.field("form"), border=False):
        day, crew, minutes = _whole_visit(visit)
        before = written_in(visit.before.outcome, units) if visit.before else {}
        written = {
            room.room: _room(visit, number, room, before.get(room.room), units, more=more)
            for number, room in enumerate(visit.figures.rooms, start=1)
        }
        note = st.text_area(
            "Remarks on the visit",
            visit.before.outcome.note if visit.before else "",
            key=visit.field("note"),
            height=80,
        )
        sent = st.form_submit_button("Save what it took", type="primary", width="stretch")
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
        keep_outcome(store, visit.key, outcome, visit.before)
        far = far_off(visit.figures, outcome, standard_book())
    except EstimatorError as error:
        st.error(plain(str(error)))
        return
    says = "Saved."
    if far:
        says += f" Far from what was planned, please look again: {', '.join(far)}."
    st.session_state[_SAVED] = says
    st.rerun()


def _visit(session: Session, store: Store) -> _Visit | None:
    """Let a quote be chosen, and a visit to it; None where there is none."""
    quotes = _quotes(session, store)
    if not quotes:
        st.markdown("Keep a quote first; what its visit took is written down here.")
        return None
    names = told_apart({quote: quote_name(one) for quote, one in quotes.items()})
    with st.container(key="outcome-visit", horizontal=True):
        quote = st.selectbox(
            "Visit to", list(names), format_func=names.__getitem__, key="outcome-quote"
        )
        kept = {one.id: one for one in reversed(store.outcomes.of(quote))}
        days = {one.id: f"{one.outcome.visited}, correct it" for one in kept.values()}
        days[_NEW] = _NEW
        chosen = st.selectbox(
            "Which",
            [_NEW, *kept],
            format_func=days.__getitem__,
            key=f"outcome-which-{quote}",
            disabled=not kept,
        )
    before = kept.get(chosen)
    key = before.key if before else quotes[quote].key
    figures = figures_kept(store, [key]).get(key)
    if figures is None:
        st.error("What was planned for this visit cannot be read any more.")
        return None
    return _Visit(key=key, figures=figures, before=before)


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
    outcome, work = visit.before.outcome if visit.before else None, visit.figures.work
    with st.container(key="outcome-whole", horizontal=True):
        day = st.date_input(
            "Day",
            date.fromisoformat(outcome.visited) if outcome else datetime.now(UTC).date(),
            key=visit.field("day"),
        )
        crew = st.number_input(
            "People",
            min_value=1,
            max_value=100,
            value=outcome.crew if outcome else work.crew,
            key=visit.field("crew"),
        )
        minutes = _number(
            visit, "minutes", "Minutes on site", outcome.on_site if outcome else None, work.on_site
        )
    return day, int(crew), minutes


def _room(
    visit: _Visit,
    number: int,
    room: RoomFigures,
    before: Written | None,
    units: Units,
    *,
    more: bool,
) -> Written:
    """Return what is written down about a room, beside what was planned."""
    unit, size = CREW_VOLUMES[units]
    told = before or Written()
    planned = f"{shown_volume(room.volume, units)} · {shown_duration(room.spray)} spraying"
    if more and room.prepare:
        planned += f" · {shown_duration(room.prepare)} preparing"
    if more and room.wipe:
        planned += f" · {shown_duration(room.wipe)} wiping"
    with st.container(key=f"stop-{number}", gap="xsmall"):
        st.markdown(f"**{number}  {plain(room.name)}**  \n:gray[planned {plain(planned)}]")
        with st.container(key=f"stop-fields-{number}", horizontal=True, gap="small"):
            volume = _figure(
                visit, f"volume-{room.room}", f"{unit} sprayed", told.volume, room.volume / size
            )
            minutes = _figure(visit, f"time-{room.room}", "Minutes", told.minutes, room.spray / 60)
            passes = st.number_input(
                "Passes",
                min_value=1,
                max_value=20,
                value=told.passes or room.passes,
                key=visit.field(f"passes-{room.room}"),
            )
            preparing, wiping = told.preparing, told.wiping
            if more:
                preparing = _figure(
                    visit, f"prepare-{room.room}", "Preparing, min", preparing, room.prepare / 60
                )
            if more and room.wiped:
                wiping = _figure(visit, f"wipe-{room.room}", "Wiping, min", wiping, room.wipe / 60)
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


def _number(
    visit: _Visit, name: str, label: str, seconds: float | None, planned: float
) -> float | None:
    """Return minutes that are written down of what is known in seconds."""
    told = None if seconds is None else seconds / 60
    return _figure(visit, name, label, told, planned / 60)


def _figure(
    visit: _Visit, name: str, label: str, told: float | None, planned: float
) -> float | None:
    """Return a figure that may stay empty; what was planned stands in it in grey."""
    return st.number_input(
        label,
        min_value=0.0,
        max_value=100_000.0,
        value=told,
        step=None,
        format="%.4g",
        placeholder=f"{planned:.2g}" if planned < 10 else f"{planned:.0f}",
        key=visit.field(name),
    )


def _has_more(visit: _Visit) -> bool:
    rows = visit.before.outcome.rows if visit.before else ()
    return any(row.preparing is not None or row.wiping is not None for row in rows)
