"""The change of the book that visits offer: said, weighed on open quotes, and taken over."""

from collections.abc import Callable

import streamlit as st

from estimator.errors import EstimatorError
from estimator.estimation.book import Book
from estimator.estimation.effect import Change as Difference
from estimator.estimation.experience import Change, Experience, Figure
from estimator.estimation.lessons import Lesson
from estimator.estimation.records import Task
from estimator.quantities import Units, shown_film, shown_pace, shown_share
from estimator.quantities.counted import counted
from estimator.quantities.per_area import shown_time_per_area
from estimator.store.store import Store
from estimator.visit.plan import ANY_USE
from estimator.web.rates.effects import effects_table
from estimator.web.tables import figures_table
from estimator.web.wording import plain
from estimator.workflow.outcomes import take_over
from estimator.workflow.rates import reach

_TAKEN = "experience-taken"
_AS_GOOD_AS = 0.005

TASKS = {
    Task.SPRAY: "Spraying",
    Task.SOLUTION: "Solution",
    Task.PREPARE: "Preparing",
    Task.WIPE: "Wiping",
    Task.VISIT: "Whole visit",
}
"""Tasks in words, in the order they are shown."""

_FIGURES: dict[Figure, tuple[str, Callable[[float, Units], str]]] = {
    Figure.SPRAY: ("Spraying", shown_pace),
    Figure.PREPARE: ("Preparing", shown_time_per_area),
    Figure.WIPE: ("Wiping", shown_pace),
    Figure.FILM: ("Film", shown_film),
    Figure.LOSS: ("Loss", lambda value, _: shown_share(value)),
    Figure.PACE_SPREAD: ("Spread of the time", lambda value, _: shown_share(value)),
    Figure.FILM_SPREAD: ("Spread of the solution", lambda value, _: shown_share(value)),
}


def taken_over() -> None:
    """Say that a change was taken over on the run before."""
    if says := st.session_state.pop(_TAKEN, ""):
        st.success(plain(says))


def change_offered(store: Store, told: Experience, book: Book, text: str, units: Units) -> None:
    """Show the change offered, what it does to open quotes, and the way to take it over.

    Parameters
    ----------
    text
        The firm's book as it was when the change was reckoned.
    """
    _offer(told, book, units)
    _effect(store, told, book)
    _take(told, text)


def percent(share: float) -> str:
    """Return a share in whole per cent."""
    return shown_share(round(share, 2))


def _offer(told: Experience, book: Book, units: Units) -> None:
    """Say what is offered, in sums and figure by figure."""
    st.subheader("Change offered to the book")
    said = [_said(one) for one in told.lessons if one.use is None and one.task is not Task.VISIT]
    for name, before, after in (
        ("Time", book.spread.pace, told.book.spread.pace),
        ("Solution", book.spread.film, told.book.spread.film),
    ):
        if percent(before) != percent(after):
            said.append(
                f"{name} strays by {percent(after)} from visit to visit; the book says "
                f"{percent(before)}."
            )
    st.markdown("\n".join(f"- {one}" for one in said))
    labels = {use.slug: use.label for use in book.surfaces.uses} | {ANY_USE: "Every other use"}
    with st.expander(f"{counted(len(told.changes), 'figure')} of the book"):
        figures_table(
            [_change(one, labels, units) for one in told.changes],
            words=("Figure", "Where"),
        )
    st.caption(
        "Litres do not tell a thicker film from more that missed: their change is parted by how "
        "unsure each was, and no film is made thicker than stays on the surface. Quotes that were "
        "kept stay as they are; new ones are made with the changed book."
    )


def _said(one: Lesson) -> str:
    more = one.factor - 1
    if abs(more) < _AS_GOOD_AS:
        return f"{TASKS[one.task]} takes what the book says."
    side = "more" if more > 0 else "less"
    unit = "solution" if one.task is Task.SOLUTION else "time"
    what = "Surfaces take" if one.task is Task.SOLUTION else f"{TASKS[one.task]} takes"
    return (
        f"{what} {percent(abs(more))} {side} {unit} than the book says "
        f"(P10 to P90: × {one.low:.2f} to {one.high:.2f})."
    )


def _effect(store: Store, told: Experience, book: Book) -> None:
    """Reckon open quotes with the changed book when asked to."""
    if not st.button("Show what this does to open quotes"):
        return
    bar = st.progress(0.0, "Open quotes are reckoned anew")
    found = reach(store, Difference(before=book, after=told.book), bar.progress)
    bar.empty()
    effects_table(found)


def _take(told: Experience, text: str) -> None:
    """Take the change over into the firm's book when asked to."""
    if not st.button("Take this over into the book", type="primary"):
        return
    try:
        take_over(told, after=text)
    except EstimatorError as error:
        st.error(plain(str(error)))
        return
    visits = counted(told.visits, "visit")
    st.session_state[_TAKEN] = f"The book has learned from {visits}; see Rates to edit it."
    st.rerun()


def _change(one: Change, labels: dict[str, str], units: Units) -> dict[str, str]:
    name, shown = _FIGURES[one.figure]
    return {
        "Figure": name,
        "Where": labels.get(one.row, one.row.capitalize() or "all rooms"),
        "Book": shown(one.before, units),
        "Offered": shown(one.after, units),
        "Change": f"{(one.after / one.before - 1) * 100:+.0f} %" if one.before else "new",
    }
