"""Does it stay wet: the air of the rooms, an advertised coverage, and wet time by contact time."""

from collections.abc import Callable, Sequence
from typing import Any

import altair as alt
import streamlit as st
from attrs import evolve

from estimator.documents.palette import ALARM, INK, STRENGTH_RAMP
from estimator.errors import QuantityError
from estimator.quantities import (
    coverage_film,
    quantity,
    shown_coverage,
    shown_duration,
    shown_film,
    shown_share,
    shown_speed,
    shown_temperature,
)
from estimator.quote.quote import Quote
from estimator.treatment.air import Air
from estimator.treatment.findings import of_claim
from estimator.treatment.solution import Wetness
from estimator.web.charts import Layers, drawn
from estimator.web.fields import typed
from estimator.web.state import Session
from estimator.web.tables import figures_table
from estimator.web.wording import plain
from estimator.workflow.work import Work

_BY_HAND = "set by hand for this job"
_LONG = "wet long enough"
_SHORT = "dries too soon"


def wetness_panel(quote: Quote, session: Session) -> None:
    """Show wet time against contact time for every zone and class of surface."""
    st.subheader("Does it stay wet?")
    _air(session)
    by_zone: dict[str, list[Wetness]] = {}
    for wet in quote.solution.wetness:
        by_zone.setdefault(wet.zone, []).append(wet)
    for slug, wetness in by_zone.items():
        label, time = quote.solution.zone_label(slug), shown_duration(wetness[0].contact_time)
        st.markdown(f"**{plain(label)}** must stay wet for {time}")
        drawn(wet_chart(wetness), f"How long each film stays wet; it must for {time}")
        for failing in of_claim(wetness, dict(quote.solution.zone_labels)):
            st.error(plain(failing), icon=":material/warning:")
        figures_table([_row(wet, session) for wet in wetness], words=("Surfaces",))
    st.caption(
        "A bar is the time until a film may be dry, the mark is the contact time it must last. A "
        "film dries soonest where the surface is as warm as the room; when it is dry at the latest "
        "counts from the last pass, where nothing warms it."
    )


def wet_chart(wetness: Sequence[Wetness]) -> Layers:
    """Return bars of how long films of one zone stay wet, with a mark at the contact time."""
    rows: list[dict[str, Any]] = []
    for wet in wetness:
        films = [("usual film", wet.usual_dries_after)]
        if not wet.holds:
            passes = "once" if wet.passes == 1 else f"in {wet.passes} passes"
            films.append((f"planned, {passes}", wet.stays_wet))
        if wet.claimed_dries_after is not None:
            films.append(("advertised", wet.claimed_dries_after))
        for film, lasts in films:
            rows.append(
                {
                    "row": f"{wet.lie.value}, {film}",
                    "wet": lasts / 60,
                    "contact": wet.contact_time / 60,
                    "label": shown_duration(lasts),
                    "verdict": _LONG if lasts >= wet.contact_time * (1 - 1e-9) else _SHORT,
                }
            )
    most = 1.35 * max(max(row["wet"], row["contact"]) for row in rows)
    scale = alt.Scale(domain=[0, most])
    base = alt.Chart({"values": rows}).encode(y=alt.Y("row:N", sort=None, title=None))
    bars = base.mark_bar(height={"band": 0.55}).encode(
        x=alt.X("wet:Q", scale=scale, axis=alt.Axis(title="minutes", tickCount=6)),
        color=alt.Color(
            "verdict:N",
            scale=alt.Scale(domain=[_LONG, _SHORT], range=[STRENGTH_RAMP[2], ALARM]),
        ),
    )
    needed = base.mark_tick(thickness=3, color=INK, height={"band": 0.95}).encode(
        x=alt.X("contact:Q", scale=scale)
    )
    said = base.mark_text(align="left", dx=6, fontSize=13, color=INK).encode(
        x=alt.X("wet:Q", scale=scale), text="label:N"
    )
    return alt.layer(bars, needed, said).properties(height=alt.Step(28))


def _row(wet: Wetness, session: Session) -> dict[str, str]:
    units = session.units
    passes = f"{wet.passes}"
    if wet.again_every is not None:
        passes += f", again every {shown_duration(wet.again_every)}"
    return {
        "Surfaces": wet.lie.value,
        "Least film": shown_film(wet.needed, units),
        "Runs above": shown_film(wet.most, units),
        "Film laid": shown_film(wet.film, units),
        "Covers": shown_coverage(wet.film * wet.passes, units),
        "Passes": passes,
        "Wet at least": shown_duration(wet.stays_wet),
        "Dry by": shown_duration(wet.dries_after),
    }


def _air(session: Session) -> None:
    air, units = session.work.book.air, session.units
    claimed = session.work.job.claimed_film
    columns = st.columns(4)
    with columns[0]:
        typed(
            session,
            "temperature",
            "Room temperature",
            shown_temperature(air.temperature, units),
            lambda text: _with_air(temperature=quantity(text, "K")),
        )
    with columns[1]:
        typed(
            session,
            "humidity",
            "Relative humidity",
            shown_share(air.humidity),
            lambda text: _with_air(humidity=_humidity(text)),
        )
    with columns[2]:
        typed(
            session,
            "air-speed",
            "Air along surfaces",
            shown_speed(air.speed, units),
            lambda text: _with_air(speed=quantity(text, "m/s")),
            hint="About 0.1 m/s in still air; more where a fan or window stirs it.",
        )
    with columns[3]:
        typed(
            session,
            "claimed",
            "Advertised coverage",
            shown_coverage(claimed, units) if claimed else "",
            _with_claim,
            hint="What a sprayer is said to cover, to be held against the contact time.",
            example="800 m² per 8 L",
        )


def _humidity(text: str) -> float:
    share = quantity(text, "dimensionless")
    if "%" not in text and share > 1:
        raise QuantityError(f"“{text}”", "it does not say of what", "write it like 50 %")
    if share > 1:
        raise QuantityError(
            f"“{text}”", "air holds no more than 100 % of the vapour it can", "give 0 to 95 %"
        )
    return share


def _with_air(**measured: Any) -> Callable[[Work], Work]:
    def change(work: Work) -> Work:
        air: Air = evolve(work.book.air, source=_BY_HAND, **measured)
        return evolve(work, book=evolve(work.book, air=air))

    return change


def _with_claim(text: str) -> Callable[[Work], Work]:
    claimed = coverage_film(text) if text else None
    return lambda work: evolve(work, job=evolve(work.job, claimed_film=claimed))
