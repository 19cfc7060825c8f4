"""What the visits of a quote really took, in a line each, and the way to write another down."""

import streamlit as st

from estimator.estimation.figures import Figures
from estimator.quantities import Units, shown_duration, shown_volume
from estimator.quantities.counted import counted
from estimator.store.store import Store
from estimator.store.values import KeptOutcome
from estimator.web.heading import link
from estimator.web.outcomes.writing_down import QUOTE
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.offers import figures_kept


def visits_panel(session: Session, store: Store, quote: str) -> None:
    """Show the outcomes of a quote beside what was planned."""
    kept = store.outcomes.of(quote)
    planned = figures_kept(store, {one.key for one in kept})
    for one in kept:
        st.markdown(plain(_said(one, planned.get(one.key), session.units)))
    link("outcome", "Write down what a visit took →", **{QUOTE: quote})


def _said(kept: KeptOutcome, planned: Figures | None, units: Units) -> str:
    """Return a visit in words.

    Of the liquid only those rooms count whose liquid was written down.
    """
    outcome = kept.outcome
    said = [f"Visit of {outcome.visited}", counted(outcome.crew, "person", "people")]
    if outcome.on_site is not None:
        said.append(f"{shown_duration(outcome.on_site)} on site")
        if planned:
            said[-1] += f", {shown_duration(planned.work.on_site)} planned"
    used = {row.room: row.volume for row in outcome.rows if row.volume is not None}
    if used:
        said.append(f"{shown_volume(sum(used.values()), units)} sprayed")
        if planned:
            foreseen = sum(room.volume for room in planned.rooms if room.room in used)
            said[-1] += f", {shown_volume(foreseen, units)} planned"
    if outcome.note:
        said.append(outcome.note)
    return " · ".join(said)
