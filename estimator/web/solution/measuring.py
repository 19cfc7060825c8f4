"""What the crew measures water and product with, so that mixes come out in its own measures."""

from collections.abc import Callable
from typing import Any

import streamlit as st
from attrs import evolve

from estimator.documents.recipes import jug_units
from estimator.quantities import quantity, shown_mass, shown_volume
from estimator.web.fields import typed
from estimator.web.state import Session
from estimator.workflow.work import Work


def measuring_panel(session: Session) -> None:
    """Show jug, scales and cylinder in fields."""
    measuring = session.work.book.measuring
    units = jug_units(measuring, session.units)
    with st.expander("What the crew measures with"):
        for name, label, shown, unit, example in (
            ("jug", "The jug holds", shown_volume(measuring.jug, units), "m^3", "1 US gal"),
            ("mark", "A mark every", shown_volume(measuring.mark, units), "m^3", "4 US fl oz"),
            ("scales", "The scales show", shown_mass(measuring.scales, units), "kg", "0.1 g"),
            (
                "cylinder",
                "A mark of the cylinder every",
                shown_volume(measuring.cylinder, units),
                "m^3",
                "1 mL",
            ),
        ):
            typed(session, f"measuring-{name}", label, shown, _with(name, unit), example=example)


def _with(name: str, unit: str) -> Callable[[str], Callable[[Work], Work]]:
    def change_for(text: str) -> Callable[[Work], Work]:
        measured = quantity(text, unit)

        def change(work: Work) -> Work:
            changes: dict[str, Any] = {name: measured, "source": "set by hand for this job"}
            measuring = evolve(work.book.measuring, **changes)
            return evolve(work, book=evolve(work.book, measuring=measuring))

        return change

    return change_for
