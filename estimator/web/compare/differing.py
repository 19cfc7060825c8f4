"""Why two quotes differ, and the course of one site."""

from collections.abc import Sequence

import streamlit as st

from estimator.errors import EstimatorError
from estimator.estimation.comparison import Measure, value_of
from estimator.estimation.differences import Driver, Waterfall, waterfall
from estimator.estimation.figures import Figures
from estimator.price.money import Money
from estimator.quantities import (
    Units,
    shown_area,
    shown_duration,
    shown_film,
    shown_length,
    shown_mass,
    shown_share,
    shown_volume,
)
from estimator.quantities.counted import counted
from estimator.quantities.per_area import shown_time_per_area
from estimator.quantities.shown import figures as shown_figures
from estimator.quantities.shown_money import shown_money, signed_money
from estimator.store.store import Store
from estimator.web.charts import drawn
from estimator.web.compare.compared_charts import Bar, course_chart, waterfall_chart
from estimator.web.compare.comparing import SHOWN
from estimator.web.tables import figures_table
from estimator.web.wording import plain, told_apart
from estimator.workflow.comparing import Compared, over_time, sites_of

_WORDS = {
    Driver.SIZE: "Size",
    Driver.LAYOUT: "Layout and scope",
    Driver.HEIGHT: "Height",
    Driver.CONTENTS: "Contents",
    Driver.FILM: "Film",
    Driver.STRENGTH: "Strength and product",
    Driver.CREW: "Crew and pace",
    Driver.TRAVEL: "Travel",
    Driver.RATES: "Rates",
    Driver.TERMS: "Terms",
}


def differences(quotes: Sequence[Compared], units: Units, *, key: str = "differ") -> None:
    """Let two of the quotes be chosen, and show why the prices differ."""
    names = told_apart({str(at): one.name for at, one in enumerate(quotes)})
    places = list(names)
    with st.container(key=f"{key}-pair", horizontal=True):
        first = st.selectbox("From", places, format_func=names.__getitem__, key=f"{key}-first")
        last = st.selectbox(
            "To", places, index=len(places) - 1, format_func=names.__getitem__, key=f"{key}-last"
        )
    here, there = quotes[int(first)].figures, quotes[int(last)].figures
    try:
        fall = waterfall(here, there)
    except EstimatorError as error:
        st.info(plain(str(error)))
        return
    pair = names[first], names[last]
    st.markdown(_sentence(fall, pair))
    if not any(step.amount.amount for step in fall.steps):
        return
    words = [_WORDS[step.driver] for step in fall.steps]
    shown = pair if pair[0] != pair[1] else (f"{pair[0]} ", pair[1])
    drawn(waterfall_chart(fall, shown, words), f"Why {pair[1]} costs what {pair[0]} does not")
    st.caption(
        "Each step is what its cause adds, averaged over all orders in which the causes could be "
        "taken (Shapley's value), so the steps add up to the coin."
    )
    with st.expander("What differs"):
        figures_table(
            [
                {
                    "Cause": _WORDS[step.driver],
                    "What it is": _MEANS[step.driver],
                    "From": _said(step.driver, here, units),
                    "To": _said(step.driver, there, units),
                    "Adds": signed_money(step.amount),
                }
                for step in fall.steps
            ],
            words=("Cause", "What it is"),
        )


def course(store: Store, quotes: Sequence[Compared], units: Units) -> None:
    """Show one site from quote to quote, and why two of them differ."""
    sites = sites_of(quotes)
    site = st.selectbox("Site", list(sites), format_func=sites.__getitem__, key="course-site")
    versions = over_time(store, site) if site else ()
    if len(versions) < 2:
        st.markdown("There is one quote of this site only; another version shows its course.")
        return
    measure = st.segmented_control(
        "Measure",
        [Measure.TOTAL, Measure.PRICE_PER_SURFACE, Measure.TREATED, Measure.ON_SITE],
        default=Measure.TOTAL,
        required=True,
        format_func=lambda one: one.value.capitalize(),
        key="course-measure",
        label_visibility="collapsed",
    )
    values = [value_of(one.figures, measure) for one in versions]
    bars = [
        Bar(name=one.name, value=value, label=SHOWN[measure](one.figures, value, units))
        for one, value in zip(versions, values, strict=True)
    ]
    drawn(course_chart(bars), f"{measure} of {sites[site]} over time")
    differences(versions, units, key="course")


def _sentence(fall: Waterfall, names: tuple[str, str]) -> str:
    apart = fall.last.amount - fall.first.amount
    if not apart:
        return "Both cost the same."
    more = "more" if apart > 0 else "less"
    said = (
        f"**{plain(names[1])}** costs {plain(shown_money(Money(abs(apart), fall.last.currency)))} "
        f"{more} than **{plain(names[0])}**"
    )
    along = [step for step in fall.steps if step.amount.amount * apart > 0]
    most = sorted(along, key=lambda step: -abs(step.amount.amount))[:2]
    causes = " and ".join(
        f"{_WORDS[step.driver].lower()} ({plain(signed_money(step.amount))})" for step in most
    )
    return f"{said}, most of all by {causes}." if most else f"{said}."


_MEANS = {
    Driver.SIZE: "Floor area",
    Driver.LAYOUT: "Floors, ceilings and walls treated, by floor area",
    Driver.HEIGHT: "Mean height of the walls",
    Driver.CONTENTS: "Surface of contents treated, by floor area",
    Driver.FILM: "Solution sprayed on a surface",
    Driver.STRENGTH: "Product in the solution",
    Driver.CREW: "People, and their work on a surface",
    Driver.TRAVEL: "Way there and back",
    Driver.RATES: "Wage, earned and least charge",
    Driver.TERMS: "Hours, discount and term",
}


def _said(driver: Driver, site: Figures, units: Units) -> str:
    """Return what a driver is at a site, in words."""
    work, rates, job = site.work, site.rates, site.job
    match driver:
        case Driver.SIZE:
            return shown_area(site.floor_area, units)
        case Driver.LAYOUT:
            flat, upright = site.flat / site.floor_area, site.upright / site.floor_area
            return f"{shown_figures(flat)} flat, {shown_figures(upright)} upright"
        case Driver.HEIGHT:
            return shown_length(site.height, units)
        case Driver.CONTENTS:
            return f"{shown_figures(site.inside / site.floor_area)} ×"
        case Driver.FILM:
            return shown_film(site.film, units)
        case Driver.STRENGTH:
            return f"{_product(site, units)} in {shown_volume(site.volume, units)}"
        case Driver.CREW:
            spent = work.person_time / site.treated if site.treated else 0.0
            people = counted(work.crew, "person", "people")
            return f"{people}, {shown_time_per_area(spent, units)}"
        case Driver.TRAVEL:
            return f"{_distance(work.distance, units)}, {shown_duration(work.road_time)}"
        case Driver.RATES:
            wage = shown_money(Money(rates.labour_per_hour, rates.currency))
            least = shown_money(Money(rates.minimum_charge, rates.currency))
            earned = rates.margin or rates.markup
            kind = "margin" if rates.margin else "mark-up"
            return f"{wage}/h, {shown_share(float(earned))} {kind}, at least {least}"
        case Driver.TERMS:
            less = f", {shown_share(float(job.discount))} less" if job.discount else ""
            return f"{job.hours}, {counted(job.visits, 'visit')}{less}"


def _product(site: Figures, units: Units) -> str:
    work = site.work
    if work.tablets:
        return counted(work.tablets, "tablet")
    if work.powder:
        return shown_mass(work.powder, units)
    return shown_volume(work.concentrate, units)


def _distance(metres: float, units: Units) -> str:
    if units is Units.METRIC:
        return f"{shown_figures(metres / 1000)} km"
    return f"{shown_figures(metres / 1609.344)} mi"
