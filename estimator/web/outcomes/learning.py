"""Estimate and actual: what visits tell, how often the range held, and the change they offer."""

import streamlit as st

from estimator.catalogue.loader import packaged_book
from estimator.estimation.book import Book
from estimator.estimation.coverage import FEWEST, PROMISED, Coverage
from estimator.estimation.experience import Experience
from estimator.estimation.lessons import Lesson
from estimator.estimation.records import Task
from estimator.quantities import Units, shown_duration, shown_share, shown_volume
from estimator.quantities.counted import counted
from estimator.quantities.shown import CREW_VOLUMES, figures
from estimator.store.store import Store
from estimator.store.values import Search
from estimator.web.charts import drawn
from estimator.web.heading import link
from estimator.web.outcomes.book_offer import TASKS, change_offered, percent, taken_over
from estimator.web.outcomes.learned_charts import Dot, Span, factor_chart, planned_chart
from estimator.web.state import Session
from estimator.web.tables import figures_table
from estimator.web.wording import plain
from estimator.workflow.firm_book import firm_text
from estimator.workflow.measuring import standard_book
from estimator.workflow.outcomes import experience_kept

_COUNTS = 0.4
"""A record below this weight is shown as one that strays."""

_MOST_NAMED = 3


def estimate_and_actual(session: Session, store: Store) -> None:
    """Show what was planned beside what it took, and offer what follows for the book."""
    taken_over()
    text, book = firm_text(), standard_book()
    told = experience_kept(store, book)
    if not told.records:
        st.markdown(_nothing(book))
        if not store.quotes.find(Search(most=1)).count:
            link("sites", "Keep a quote first →")
        return
    _coverage(told)
    task = _task(told)
    left, right = st.columns([1, 1], gap="large")
    with left:
        st.subheader("Planned and actual")
        _planned_and_actual(told, task, session.units)
    with right:
        st.subheader("As a multiple of the book")
        _factors(told, task)
    with st.expander("By room use and task"):
        _lessons(told, session.units)
    change_offered(store, told, book, text, session.units)


def _nothing(book: Book) -> str:
    if book == packaged_book():
        return "No visit was written down yet."
    return "No visit was written down since the book last learned from visits."


def _coverage(told: Experience) -> None:
    """Say how often the range held."""
    held = told.coverage
    with st.container(key="coverage", horizontal=True, gap="medium"):
        st.metric("Visits", f"{told.visits:,}", width="content")
        st.metric("Written down", counted(len(told.records), "figure"), width="content")
        if held.visits:
            st.metric(
                "Between P10 and P90",
                f"{held.within} of {held.visits}",
                f"promised {shown_share(PROMISED)}",
                delta_color="off",
                delta_arrow="off",
                width="content",
            )
    st.markdown(_held(held))


def _held(held: Coverage) -> str:
    if not held.visits:
        return "How often the price fell into its range is told once the time on site is known."
    true = (
        f"The true share lies between {percent(held.low)} and "
        f"{percent(held.high)} (Wilson's interval, 95 %)."
    )
    if held.visits < FEWEST:
        return f"{true} Fewer than {FEWEST} visits say nothing against a range."
    if held.holds:
        return f"{true} That agrees with the {shown_share(PROMISED)} promised."
    if held.widening > 1:
        return (
            f"{true} The range was too narrow: prices strayed {held.widening:.1f} times as far. "
            "The spread offered below is wide enough."
        )
    return (
        f"{true} Prices came out to one side or the other of it, but strayed no further from each "
        "other: the figures offered below move the range rather than widen it."
    )


def _task(told: Experience) -> Task:
    """Let one of the tasks that were written down be chosen."""
    tasks = [task for task in TASKS if any(one.task is task for one in told.records)]
    chosen = st.segmented_control(
        "Task",
        tasks,
        default=tasks[0],
        required=True,
        format_func=TASKS.__getitem__,
        key="learned-task",
        label_visibility="collapsed",
    )
    return chosen or tasks[0]


def _planned_and_actual(told: Experience, task: Task, units: Units) -> None:
    unit, size = CREW_VOLUMES[units] if task is Task.SOLUTION else ("min", 60.0)
    dots = [
        Dot(
            planned=one.planned / size,
            actual=one.actual / size,
            name=one.room or one.use_label,
            counts=weight >= _COUNTS,
        )
        for one, weight in zip(told.records, told.weights, strict=True)
        if one.task is task
    ]
    drawn(planned_chart(dots, unit), f"{TASKS[task]}: planned and actual")
    strays = [dot for dot in dots if not dot.counts]
    if strays:
        st.caption(
            f"{counted(len(strays), 'record')} far from the rest and counting for little: "
            + plain(", ".join(_stray(dot, unit) for dot in strays[:_MOST_NAMED]))
            + (" and others." if len(strays) > _MOST_NAMED else ".")
        )


def _stray(dot: Dot, unit: str) -> str:
    planned, actual = figures(dot.planned), figures(dot.actual)
    return f"{dot.name}, {actual} {unit} against {planned}"


def _factors(told: Experience, task: Task) -> None:
    spans = [
        Span(
            name=one.label,
            low=one.low,
            middle=one.factor,
            high=one.high,
            label=f"× {one.factor:.2f}",
        )
        for one in told.lessons
        if one.task is task
    ]
    drawn(factor_chart(spans), f"{TASKS[task]}, as a multiple of what the book foresees")
    st.caption(
        "Dots are what to expect, bars reach from P10 to P90, the dashed line is the book. Few "
        "records move little: each use is drawn toward all rooms, and all rooms toward the book "
        "(hierarchical model with Student's t, so that one bad record hardly counts)."
    )


def _lessons(told: Experience, units: Units) -> None:
    figures_table(
        [
            {
                "Task": TASKS[one.task],
                "Rooms": one.label,
                "Records": f"{one.records:,}",
                "Visits": f"{one.visits:,}",
                "Planned": _amount(one, one.planned, units),
                "Actual": _amount(one, one.actual, units),
                "Actual ÷ planned": f"{one.actual / one.planned:.2f}",
                "To expect": f"× {one.factor:.2f}",
                "P10 to P90": f"{one.low:.2f} to {one.high:.2f}",
            }
            for one in told.lessons
        ],
        words=("Task", "Rooms"),
    )


def _amount(lesson: Lesson, value: float, units: Units) -> str:
    if lesson.task is Task.SOLUTION:
        return shown_volume(value, units)
    return shown_duration(value)
