"""Charts of quotes side by side, and of why two of them differ."""

from collections.abc import Sequence

import altair as alt
from attrs import frozen

from estimator.documents.palette import ACCENT, DOUBT, HAIRLINE, INK, MUTED, PAPER, STRENGTH_RAMP
from estimator.estimation.differences import Waterfall
from estimator.quantities.shown_money import shown_money, signed_money
from estimator.web.charts import Layers, Stair, row_height, stairs_chart

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
    return alt.layer(*marks).properties(height=row_height(len(bars)))


def waterfall_chart(fall: Waterfall, names: tuple[str, str], words: Sequence[str]) -> Layers:
    """Return a difference as steps from the one price to the other.

    Parameters
    ----------
    words
        What each of the steps is called.
    """
    reached = float(fall.first.amount)
    before = shown_money(fall.first)
    stairs = [Stair(name=names[0], start=0.0, end=reached, part="price", label=before)]
    for step, word in zip(fall.steps, words, strict=True):
        if not step.amount.amount:
            continue
        start, reached = reached, reached + float(step.amount.amount)
        part = "dearer" if reached > start else "cheaper"
        label = signed_money(step.amount)
        stairs.append(Stair(name=word, start=start, end=reached, part=part, label=label))
    last = float(fall.last.amount)
    after = shown_money(fall.last)
    stairs.append(Stair(name=names[1], start=0.0, end=last, part="price", label=after))
    colours = {"price": MUTED, "dearer": DOUBT, "cheaper": ACCENT}
    return stairs_chart(stairs, colours, legend=("dearer", "cheaper"))


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
