"""Charts, drawn in the colours of the paper."""

from collections.abc import Mapping, Sequence

import altair as alt
import streamlit as st
from attrs import frozen

from estimator.documents.palette import ACCENT, DOUBT, HAIRLINE, INK, MUTED, STRENGTH_RAMP
from estimator.price.build_up import LineKind, Price
from estimator.quantities import Units, shown_area
from estimator.quantities.shown_money import shown_money
from estimator.quote.quote import Range
from estimator.surfaces.schedule import SurfaceKind
from estimator.surfaces.totals import Total

Layers = alt.LayerChart | alt.FacetChart
"""What Altair makes of layers."""

NAMES = {
    SurfaceKind.FLOOR: "Floors",
    SurfaceKind.WALL: "Walls",
    SurfaceKind.CEILING: "Ceilings",
    SurfaceKind.DOOR: "Doors",
    SurfaceKind.GLASS: "Glass",
    SurfaceKind.REVEAL: "Reveals",
    SurfaceKind.FURNITURE: "Furniture",
    SurfaceKind.TOUCH_POINT: "Touch points",
}

_FACE = '"Source Sans", sans-serif'
_ROOMY, _TIGHT = 34, 22
_MANY = 15
"""From so many rows on they are drawn closer."""

_FOR_LABELS = 0.45
"""Room for what stands beside the longest bar, as a share of all bars, so that a phone has it."""

_PRICE_PARTS = {"cost": STRENGTH_RAMP[2], "charged on it": DOUBT, "tax": MUTED, "price": ACCENT}

_CHARGED = {
    LineKind.OVERHEAD,
    LineKind.MARKUP,
    LineKind.DISCOUNT,
    LineKind.TERM_DISCOUNT,
    LineKind.MINIMUM,
    LineKind.ROUNDING,
}


def drawn(chart: Layers, says: str) -> None:
    """Show a chart over the full width, in the look of the app; ``says`` is for who cannot see."""
    styled = (
        chart.configure(background="transparent", font=_FACE, padding=4)
        .configure_view(strokeWidth=0)
        .configure_axis(
            grid=False,
            domain=False,
            ticks=False,
            labelColor=INK,
            labelFontSize=14,
            labelLimit=220,
            labelPadding=8,
            titleColor=MUTED,
            titleFontSize=13,
            titleFontWeight="normal",
        )
        .configure_legend(
            labelColor=INK, labelFontSize=13, title=None, orient="top", symbolType="square"
        )
    )
    st.altair_chart(styled, theme=None, width="stretch", alt=says)


def row_height(rows: int) -> alt.Step:
    """Return the height of each of so many rows."""
    return alt.Step(_TIGHT if rows > _MANY else _ROOMY)


def area_chart(totals: Mapping[SurfaceKind, Total], units: Units) -> Layers:
    """Return bars of the area of each kind of surface: treated, and left alone."""
    rows = [
        {
            "surface": NAMES[kind],
            "part": part,
            "order": order,
            "area": area,
            "all": one.net,
            "label": shown_area(one.treated, units) if one.treated else "not treated",
        }
        for kind, one in totals.items()
        for order, (part, area) in enumerate(
            (("treated", one.treated), ("left alone", max(0.0, one.net - one.treated)))
        )
    ]
    largest_first = sorted(totals, key=lambda kind: -totals[kind].net)
    order = [NAMES[kind] for kind in largest_first]
    base = alt.Chart({"values": rows}).encode(y=alt.Y("surface:N", sort=order, title=None))
    bars = base.mark_bar(height={"band": 0.62}).encode(
        x=alt.X("area:Q", axis=None),
        color=alt.Color(
            "part:N",
            scale=alt.Scale(domain=["treated", "left alone"], range=[ACCENT, HAIRLINE]),
        ),
        order="order:Q",
    )
    labels = (
        base.transform_filter("datum.order == 0")
        .mark_text(align="left", dx=6, fontSize=14, color=INK)
        .encode(x=alt.X("all:Q", axis=None), text="label:N")
    )
    return alt.layer(bars, labels).properties(height=row_height(len(order)))


@frozen(kw_only=True)
class Stair:
    """A bar that begins where the one before it ended, and what is written beside it."""

    name: str
    start: float
    end: float
    part: str
    label: str


def stairs_chart(
    stairs: Sequence[Stair], colours: Mapping[str, str], *, legend: Sequence[str]
) -> Layers:
    """Return bars from one amount to another, step by step.

    Parameters
    ----------
    colours
        Those of the parts.
    legend
        The parts whose colours are explained.
    """
    rows = [
        {
            "name": stair.name,
            "from": stair.start,
            "to": stair.end,
            "most": max(stair.start, stair.end),
            "part": stair.part,
            "label": stair.label,
        }
        for stair in stairs
    ]
    ends = [end for stair in stairs for end in (stair.start, stair.end)]
    span = max(ends) - min(ends) or 1.0
    domain = [min(0.0, *ends) - 0.02 * span, max(ends) + _FOR_LABELS * span]
    base = alt.Chart({"values": rows}).encode(y=alt.Y("name:N", sort=None, title=None))
    bars = base.mark_bar(height={"band": 0.62}).encode(
        x=alt.X("from:Q", axis=None, scale=alt.Scale(domain=domain, nice=False)),
        x2="to:Q",
        color=alt.Color(
            "part:N",
            scale=alt.Scale(domain=[*colours], range=[*colours.values()]),
            legend=alt.Legend(values=[*legend]),
        ),
    )
    labels = base.mark_text(align="left", dx=6, fontSize=13, color=INK).encode(
        x=alt.X("most:Q", axis=None), text="label:N"
    )
    return alt.layer(bars, labels).properties(height=row_height(len(rows)))


def price_chart(price: Price) -> Layers:
    """Return the price as steps: what it costs, what is charged for that, tax, and the total."""
    stairs: list[Stair] = []
    reached = 0.0
    for line in price.lines:
        start, reached = reached, reached + float(line.amount.amount)
        label = shown_money(line.amount)
        stairs.append(
            Stair(name=line.label, start=start, end=reached, part=_part(line.kind), label=label)
        )
    total = shown_money(price.total)
    stairs.append(Stair(name="The client pays", start=0.0, end=reached, part="price", label=total))
    return stairs_chart(stairs, _PRICE_PARTS, legend=[*_PRICE_PARTS])


def range_chart(price: Price, likely: Range) -> Layers:
    """Return the range of the price: from P10 to P90, with its middle and the price quoted."""
    low, middle, high, quoted = (
        float(money.amount) for money in (likely.p10, likely.p50, likely.p90, price.total)
    )
    margin = max(0.15 * (high - low), 0.02 * high, 1.0)
    scale = alt.Scale(domain=[min(low, quoted) - margin, max(high, quoted) + margin], zero=False)
    x = alt.X("low:Q", axis=None, scale=scale)
    row = {
        "low": low,
        "high": high,
        "middle": middle,
        "quoted": quoted,
        "low label": shown_money(likely.p10),
        "high label": shown_money(likely.p90),
    }
    base = alt.Chart({"values": [row]})
    band = base.mark_bar(height=18, color=STRENGTH_RAMP[0], stroke=STRENGTH_RAMP[2]).encode(
        x=x, x2="high:Q"
    )
    half = base.mark_tick(thickness=2, size=18, color=STRENGTH_RAMP[3]).encode(
        x=alt.X("middle:Q", axis=None, scale=scale)
    )
    point = base.mark_point(filled=True, size=110, color=INK, opacity=1).encode(
        x=alt.X("quoted:Q", axis=None, scale=scale)
    )
    least = base.mark_text(align="left", dy=22, fontSize=13, color=MUTED).encode(
        x=x, text="low label:N"
    )
    most = base.mark_text(align="right", dy=22, fontSize=13, color=MUTED).encode(
        x=alt.X("high:Q", axis=None, scale=scale), text="high label:N"
    )
    return alt.layer(band, half, point, least, most).properties(height=64)


def _part(kind: LineKind) -> str:
    if kind is LineKind.TAX:
        return "tax"
    return "charged on it" if kind in _CHARGED else "cost"
