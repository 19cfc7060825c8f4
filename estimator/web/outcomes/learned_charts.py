"""Charts of what was planned and what it took, and of how the book would change."""

from collections.abc import Sequence

import altair as alt
from attrs import frozen

from estimator.documents.palette import ACCENT, DOUBT, HAIRLINE, INK, MUTED
from estimator.web.charts import Layers, row_height

_ALL, _LITTLE = "a room", "far from the rest"


@frozen(kw_only=True)
class Dot:
    """One record: planned and actual in the same unit, and what it is called."""

    planned: float
    actual: float
    name: str
    counts: bool


@frozen(kw_only=True)
class Span:
    """A factor on the book with its P10 and P90."""

    name: str
    low: float
    middle: float
    high: float
    label: str


def planned_chart(dots: Sequence[Dot], unit: str) -> Layers:
    """Return what each room took beside what was planned; on the line both are the same."""
    rows = [
        {
            "planned": dot.planned,
            "actual": dot.actual,
            "name": dot.name,
            "part": _ALL if dot.counts else _LITTLE,
        }
        for dot in dots
    ]
    ends = [value for dot in dots for value in (dot.planned, dot.actual)]
    domain = [0.8 * min(ends), 1.25 * max(ends)]
    scale = alt.Scale(type="log", domain=domain, nice=False)
    line = (
        alt.Chart({"values": [{"planned": each, "actual": each} for each in domain]})
        .mark_line(color=HAIRLINE, strokeWidth=2)
        .encode(x=alt.X("planned:Q", scale=scale), y=alt.Y("actual:Q", scale=scale))
    )
    axis = alt.Axis(tickCount=4, format="~g", labelFontSize=12)
    points = (
        alt.Chart({"values": rows})
        .mark_point(filled=True, size=70, opacity=0.85)
        .encode(
            x=alt.X("planned:Q", title=f"planned, {unit}", scale=scale, axis=axis),
            y=alt.Y("actual:Q", title=f"actual, {unit}", scale=scale, axis=axis),
            color=alt.Color(
                "part:N",
                scale=alt.Scale(domain=[_ALL, _LITTLE], range=[ACCENT, DOUBT]),
                legend=None if all(dot.counts for dot in dots) else alt.Legend(),
            ),
            tooltip=["name:N", "planned:Q", "actual:Q"],
        )
    )
    return alt.layer(line, points).properties(height=330)


def factor_chart(spans: Sequence[Span]) -> Layers:
    """Return factors on the book with their spans; the book itself is the line at 1."""
    rows = [
        {
            "name": span.name,
            "low": span.low,
            "middle": span.middle,
            "high": span.high,
            "label": span.label,
        }
        for span in spans
    ]
    least = min(0.9, *(span.low for span in spans))
    most = max(1.1, *(span.high for span in spans))
    domain = [least * (least / most) ** 0.05, most * (most / least) ** 0.3]
    scale = alt.Scale(type="log", domain=domain, nice=False)
    base = alt.Chart({"values": rows}).encode(y=alt.Y("name:N", sort=None, title=None))
    book = alt.Chart({"values": [{"book": 1.0}]}).mark_rule(color=MUTED, strokeDash=[4, 3])
    return alt.layer(
        book.encode(x=alt.X("book:Q", axis=None, scale=scale)),
        base.mark_rule(strokeWidth=5, color=HAIRLINE, strokeCap="round").encode(
            x=alt.X("low:Q", axis=None, scale=scale), x2="high:Q"
        ),
        base.mark_point(filled=True, size=90, color=ACCENT, opacity=1).encode(
            x=alt.X("middle:Q", axis=None, scale=scale)
        ),
        base.mark_text(align="left", dx=8, fontSize=13, color=INK).encode(
            x=alt.X("high:Q", axis=None, scale=scale), text="label:N"
        ),
    ).properties(height=row_height(len(spans)))
