"""What a change of the book does to open quotes, as a table."""

import streamlit as st

from estimator.estimation.effect import Effect
from estimator.price.money import Money
from estimator.quantities.counted import counted
from estimator.quantities.shown_money import shown_money, signed_money
from estimator.web.tables import figures_table
from estimator.workflow.rates import Reach


def effects_table(found: Reach, own: tuple[str, Effect] | None = None) -> None:
    """Show the total of every open quote before and after a change.

    Parameters
    ----------
    own
        What the change does to work that is on the screen, and its title.
    """
    rows = [_row(f"On the screen: {own[0]}", "", own[1])] if own else []
    rows += [
        _row(one.quote.title or one.quote.site_name, one.quote.date, one.effect)
        for one in found.touched
    ]
    if rows:
        figures_table(rows, words=("Quote", "Date", "Note"))
    left_out = found.open - len(found.touched)
    if left_out:
        st.caption(f"{counted(left_out, 'older open quote')} would take too long and are left out.")
    if not found.open:
        st.caption("No quote is kept as open yet.")


def _row(title: str, date: str, effect: Effect) -> dict[str, str]:
    after, difference = "–", "–"
    if effect.after:
        after = shown_money(effect.after)
        more = effect.after.amount - effect.before.amount
        difference = signed_money(Money(more, effect.after.currency)) if more else "the same"
    return {
        "Quote": title,
        "Date": date,
        "As quoted": shown_money(effect.before),
        "With the change": after,
        "Difference": difference,
        "Note": effect.says,
    }
