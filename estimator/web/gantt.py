"""The timetable as charts: what each person does, and what happens in each room."""

from collections.abc import Mapping
from typing import Any

import altair as alt

from estimator.documents.palette import ALARM, DOUBT, HAIRLINE, INK, MUTED, PAPER, STRENGTH_RAMP
from estimator.measures import Seconds
from estimator.quantities import shown_duration
from estimator.visit.timetable import Step, Timetable
from estimator.web.charts import Layers

_COLOURS = {
    Step.ARRIVE: "#b9b3a6",
    Step.MIX: "#8d98a5",
    Step.PREPARE: "#c9b98f",
    Step.SPRAY: STRENGTH_RAMP[4],
    Step.REFILL: MUTED,
    Step.BATTERY: INK,
    Step.CONTACT: STRENGTH_RAMP[1],
    Step.WIPE: DOUBT,
    Step.AIR: "#dbe2ee",
    Step.UNMASK: "#8f7f52",
    Step.BREAK: "#e9e4d8",
    Step.LEAVE: "#b9b3a6",
}
_ROW = 30
_SITE = "Site"

_CLOCK = "floor(datum.value / 60) + ':' + format(datum.value % 60, '02')"


def by_person(timetable: Timetable, names: Mapping[str, str]) -> Layers:
    """Return a row for each member of the crew."""
    rows = [row for row in _rows(timetable, names) if row["person"]]
    order = [f"Person {number}" for number in range(1, timetable.crew + 1)]
    return _chart(rows, "who", order, timetable.on_site)


def by_room(timetable: Timetable, names: Mapping[str, str]) -> Layers:
    """Return a row for each room in the order of spraying, marked where people may return."""
    rows = [row for row in _rows(timetable, names) if row["room"] != _SITE]
    order = list(dict.fromkeys(names[room] for room in timetable.order))
    returns = [
        {"room": names[one.room], "at": one.at / 60, "because": one.because}
        for one in timetable.reentry
    ]
    marks = (
        alt.Chart({"values": returns})
        .mark_tick(thickness=3, size=20, color=ALARM)
        .encode(
            x=alt.X("at:Q"),
            y=alt.Y("room:N", sort=order),
            tooltip=[alt.Tooltip("room:N"), alt.Tooltip("because:N", title="back no sooner, for")],
        )
    )
    until = max([row["end"] * 60 for row in rows] + [one.at for one in timetable.reentry])
    return alt.layer(_chart(rows, "room", order, until), marks)


def key(timetable: Timetable) -> str:
    """Return what each colour stands for, as HTML without any text of the user's."""
    used = {task.step for task in timetable.tasks}
    entries = (
        f'<span><i style="background:{_COLOURS[step]}"></i>{step.value}</span>'
        for step in Step
        if step in used
    )
    back = f'<span><i style="background:{ALARM};width:.25rem"></i>no return before</span>'
    return f'<div class="key">{"".join(entries)}{back}</div>'


def _rows(timetable: Timetable, names: Mapping[str, str]) -> list[dict[str, Any]]:
    return [
        {
            "step": task.step.value,
            "room": names[task.room] if task.room else _SITE,
            "who": f"Person {task.person}" if task.person else "Nobody inside",
            "person": task.person,
            "start": task.start / 60,
            "end": task.end / 60,
            "takes": shown_duration(task.end - task.start),
        }
        for task in timetable.tasks
    ]


def _chart(rows: list[dict[str, Any]], row: str, order: list[str], until: Seconds) -> Layers:
    steps = [step for step in Step if any(one["step"] == step.value for one in rows)]
    bars = (
        alt.Chart({"values": rows})
        .mark_bar(height={"band": 0.72}, stroke=PAPER, strokeWidth=0.5)
        .encode(
            x=alt.X(
                "start:Q",
                title="hours and minutes from arrival",
                scale=alt.Scale(domain=[0, until / 60], nice=False),
                axis=alt.Axis(
                    grid=True,
                    gridColor=HAIRLINE,
                    labelExpr=_CLOCK,
                    tickMinStep=5,
                    labelFlush=False,
                    labelFontSize=12,
                    labelColor=MUTED,
                ),
            ),
            x2="end:Q",
            y=alt.Y(f"{row}:N", sort=order, title=None),
            color=alt.Color(
                "step:N",
                scale=alt.Scale(
                    domain=[step.value for step in steps],
                    range=[_COLOURS[step] for step in steps],
                ),
                legend=None,
            ),
            tooltip=[
                alt.Tooltip("step:N"),
                alt.Tooltip("room:N"),
                alt.Tooltip("who:N"),
                alt.Tooltip("takes:N"),
            ],
        )
    )
    return alt.layer(bars).properties(height=alt.Step(_ROW))
