"""Charts of quotes side by side, and of why two of them differ."""

from collections.abc import Sequence
from typing import Any

import altair as alt
from attrs import frozen

from estimator.documents.palette import ACCENT, DOUBT, HAIRLINE, INK, MUTED, PAPER, STRENGTH_RAMP
from estimator.estimation.differences import Waterfall
from estimator.quantities.shown_money import shown_money, signed_money
from estimator.web.charts import Layers

_ROOMY, _TIGHT = 34, 22
_MANY = 15
"""From so many bars on they are drawn closer."""

_ALL, _UNUSUAL = "as usual", "stands out"


@frozen(kw_only=True)
class Bar:
    """One quote in a chart."""

    name: str
    value: float
    label: str
    unusual: bool = False


def ranking_chart(bars: Sequence[Bar], usual: float | None) -> Layers:
    """Return bars in the order given, the middle of all as a line; what stands out is told apart.

    Parameters
    ----------
    usual
        The middle; None where there are too few to speak of one.
    """
    rows = [
        {
            "name": bar.name,
            "value": bar.value,
            "end": max(0.0, bar.value),
            "label": bar.label,
            "part": _UNUSUAL if bar.unusual else _ALL,
        }
        for bar in bars
    ]
    most = max((bar.value for bar in bars), default=0.0) or 1.0
    least = min(0.0, *(bar.value for bar in bars)) if bars else 0.0
    domain = [1.15 * least, 1.8 * max(most, 0.0)]
    base = alt.Chart({"values": rows}).encode(y=alt.Y("name:N", sort=None, title=None))
    marks: list[alt.Chart] = []
    if usual is not None:
        line = alt.Chart({"values": [{"usual": usual}]}).mark_rule(color=MUTED, strokeDash=[4, 3])
        marks.append(line.encode(x=alt.X("usual:Q", axis=None)))
    marks += [
        base.mark_bar(height={"band": 0.62}).encode(
            x=alt.X("value:Q", axis=None, scale=alt.Scale(domain=domain, nice=False)),
            color=alt.Color(
                "part:N",
                scale=alt.Scale(domain=[_ALL, _UNUSUAL], range=[STRENGTH_RAMP[2], DOUBT]),
                legend=alt.Legend() if any(bar.unusual for bar in bars) else None,
            ),
        ),
        base.mark_text(align="left", dx=6, fontSize=13, stroke=PAPER, strokeWidth=5).encode(
            x=alt.X("end:Q", axis=None), text="label:N"
        ),
        base.mark_text(align="left", dx=6, fontSize=13, color=INK).encode(
            x=alt.X("end:Q", axis=None), text="label:N"
        ),
    ]
    step = _TIGHT if len(bars) > _MANY else _ROOMY
    return alt.layer(*marks).properties(height=alt.Step(step))


def waterfall_chart(fall: Waterfall, names: tuple[str, str], words: Sequence[str]) -> Layers:
    """Return a difference as steps from the one price to the other.

    Parameters
    ----------
    words
        What each of the steps is called.
    """
    first = float(fall.first.amount)
    rows: list[dict[str, Any]] = [_row(names[0], 0.0, first, "price", shown_money(fall.first))]
    reached = first
    for step, word in zip(fall.steps, words, strict=True):
        amount = float(step.amount.amount)
        part = "dearer" if amount > 0 else "cheaper"
        if amount:
            rows.append(_row(word, reached, reached + amount, part, signed_money(step.amount)))
        reached += amount
    last = shown_money(fall.last)
    rows.append(_row(names[1], 0.0, float(fall.last.amount), "price", last))
    ends = [value for row in rows for value in (row["from"], row["to"])]
    span = max(ends) - min(ends) or 1.0
    domain = [min(0.0, *ends) - 0.02 * span, max(ends) + 0.45 * span]
    scale = alt.Scale(domain=domain, nice=False)
    base = alt.Chart({"values": rows}).encode(y=alt.Y("step:N", sort=None, title=None))
    bars = base.mark_bar(height={"band": 0.62}).encode(
        x=alt.X("from:Q", axis=None, scale=scale),
        x2="to:Q",
        color=alt.Color(
            "part:N",
            scale=alt.Scale(domain=["price", "dearer", "cheaper"], range=[MUTED, DOUBT, ACCENT]),
            legend=alt.Legend(values=["dearer", "cheaper"]),
        ),
    )
    labels = base.mark_text(align="left", dx=6, fontSize=13, color=INK).encode(
        x=alt.X("most:Q", axis=None), text="label:N"
    )
    return alt.layer(bars, labels).properties(height=alt.Step(_ROOMY))


def course_chart(bars: Sequence[Bar]) -> Layers:
    """Return a measure of one site from quote to quote, the oldest first."""
    rows = [{"name": bar.name, "value": bar.value, "label": bar.label} for bar in bars]
    base = alt.Chart({"values": rows}).encode(
        x=alt.X(
            "name:N",
            sort=None,
            title=None,
            axis=alt.Axis(labelAngle=0, labelExpr="split(datum.label, ', ')"),
        ),
        y=alt.Y("value:Q", axis=None, scale=alt.Scale(zero=True, padding=24)),
    )
    line = base.mark_line(color=HAIRLINE, strokeWidth=2)
    points = base.mark_point(filled=True, size=90, color=ACCENT, opacity=1)
    labels = base.mark_text(dy=-16, fontSize=13, color=INK).encode(text="label:N")
    return alt.layer(line, points, labels).properties(height=190)


def _row(step: str, start: float, end: float, part: str, label: str) -> dict[str, Any]:
    return {
        "step": step,
        "from": start,
        "to": end,
        "most": max(start, end),
        "part": part,
        "label": label,
    }
