"""The mixes: how strong, how much, and what goes into which tank."""

from collections.abc import Sequence
from itertools import groupby

import streamlit as st

from estimator.documents.recipes import recipe_words
from estimator.documents.wording import keeping_words, stock_words, water_words
from estimator.quantities import (
    Units,
    shown_concentration,
    shown_duration,
    shown_mass,
    shown_volume,
)
from estimator.quantities.counted import counted
from estimator.quote.quote import Quote
from estimator.treatment.findings import of_claim
from estimator.treatment.solution import Mix, TankFill
from estimator.web.state import Session
from estimator.web.tables import figures_table
from estimator.web.wording import plain


def mixes_panel(quote: Quote, session: Session) -> None:
    """Show every mix, what follows from it, and how long it may be used."""
    solution, units = quote.solution, session.units
    for number, mix in enumerate(solution.mixes):
        with st.container(key=f"mix-{number}", border=True):
            with st.container(horizontal=True, gap="large"):
                for label, value, note in (
                    ("Strength", shown_concentration(mix.wanted), _obtained(mix)),
                    ("To spray", shown_volume(mix.needed, units), _left_over(mix, units)),
                    ("Product", _dose(mix, units), solution.product_label),
                    (
                        "Tank fills",
                        f"{len(mix.fills)}",
                        f"keep wet for {shown_duration(mix.contact_time)}",
                    ),
                ):
                    st.metric(
                        label, value, note, delta_color="off", delta_arrow="off", width="content"
                    )
            numbered = groupby(enumerate(mix.fills, start=1), key=lambda pair: pair[1])
            figures_table(
                [
                    _fill([number for number, _ in alike], fill, quote, units)
                    for fill, alike in numbered
                ],
                words=("Fill",),
            )
            if rule := recipe_words(mix, solution.label):
                st.caption(plain(rule))
            if mix.stock:
                st.caption(f"Or {plain(stock_words(mix, units))}")
    st.caption(keeping_words(solution))
    claims = [*of_claim(solution.wetness, dict(solution.zone_labels))]
    if warnings := [one for one in solution.warnings if one not in claims]:
        with st.container(key="warnings"):
            st.markdown("\n".join(f"- {plain(one)}" for one in warnings))


def _obtained(mix: Mix) -> str:
    return f"comes out at {shown_concentration(mix.strength)}"


def _left_over(mix: Mix, units: Units) -> str:
    if not mix.left_over:
        return "nothing left over"
    return f"{shown_volume(mix.left_over, units)} left over"


def _dose(mix: Mix, units: Units) -> str:
    if mix.tablets:
        return counted(mix.tablets, "tablet")
    if mix.powder:
        return shown_mass(mix.powder, units)
    return shown_volume(mix.concentrate, units)


def _fill(numbers: Sequence[int], fill: TankFill, quote: Quote, units: Units) -> dict[str, str]:
    """Return the row of tanks that are filled alike."""
    first, last = numbers[0], numbers[-1]
    tanks = f"Tank {first}" if first == last else f"Tanks {first} to {last}, each"
    row = {"Fill": tanks, "Solution": shown_volume(fill.volume, units)}
    if fill.tablets:
        row["Tablets"] = f"{fill.tablets}"
    if fill.powder:
        row["Powder"] = shown_mass(fill.powder, units)
    if fill.concentrate:
        row["Concentrate"] = shown_volume(fill.concentrate, units)
    return row | {
        "Water": water_words(fill.water, quote.solution, units),
        "Strength": shown_concentration(fill.strength),
    }
