"""Fields for the rates that are one row of the book."""

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

import streamlit as st

from estimator.price.charging import margin_of, markup_of
from estimator.price.rounding import Halves, Rounded
from estimator.web.rates.tables import SPREAD, percent

Row = dict[str, Any]
Key = Callable[[str], str]

_COSTS = (
    ("labour_per_hour", "Wage of one person, an hour"),
    ("wear_per_person", "Protective wear of one person, a visit"),
    ("equipment_per_hour", "A sprayer with its kit, an hour"),
    ("travel_per_km", "Vehicle, a kilometre"),
)
_MARKUP, _MARGIN = "Mark-up, a share of the cost", "Margin, a share of the charge"
_HALVES = {Halves.UP: "up", Halves.EVEN: "to the even step"}
_ROUNDED = {Rounded.TOTAL: "Total, tax included", Rounded.CHARGE: "Charge before tax"}


def rates_fields(shown: Row, places: Mapping[str, str], key: Key) -> Row:
    """Show the firm's rates in fields and return them as they stand now.

    Parameters
    ----------
    places
        Names of the places that the usual one may be chosen from, by slug.
    key
        Returns the key of a field.
    """
    cost, charge, offer = st.columns(3, gap="large")
    with cost:
        told = _costs(shown, key)
    with charge:
        told |= _charge(shown, key)
    with offer:
        told |= _offer(shown, places, key)
    return told


def spread_fields(shown: Row, key: Key) -> Row:
    """Show how far film and pace stray in fields and return it as it stands now."""
    st.caption(
        "One standard deviation from visit to visit, as per cent of the estimate: what widens the "
        "range of every price. Outcomes entered for past visits tell yours."
    )
    return {
        column.key: _share(column.label, shown.get(column.key), key(column.key))
        for column in SPREAD
    }


def _costs(shown: Row, key: Key) -> Row:
    st.subheader("What work costs you")
    told: Row = {
        "currency": st.text_input(
            "Currency", shown["currency"], key=key("currency"), max_chars=3, help="ISO 4217"
        )
        .strip()
        .upper()
    }
    for name, label in _COSTS:
        told[name] = _amount(label, shown.get(name), key(name))
    told["burden"] = _share("Employer's taxes, insurance and leave, % of the wage",
                            shown.get("burden"), key("burden"))  # fmt: skip
    return told


def _charge(shown: Row, key: Key) -> Row:
    st.subheader("What you put on it")
    overhead = _share("Overhead, % of the cost", shown.get("overhead"), key("overhead"))
    by_margin = bool(shown.get("margin"))
    basis = st.radio("What is earned", [_MARKUP, _MARGIN], index=int(by_margin), key=key("basis"))
    name = "margin" if basis == _MARGIN else "markup"
    profit = _share(
        f"{basis.split(',')[0]}, %", shown.get("margin" if by_margin else "markup"), key("profit")
    )
    if profit is not None:
        share = Decimal(str(profit))
        if name == "markup":
            st.caption(f"That is a margin of {margin_of(share):.1%}.")
        elif share < 1:
            st.caption(f"That is a mark-up of {markup_of(share):.1%}.")
    told: Row = {"overhead": overhead, name: profit}
    told["minimum_charge"] = _amount(
        "Least charge for a visit, before tax", shown.get("minimum_charge"), key("minimum")
    )
    return told


def _offer(shown: Row, places: Mapping[str, str], key: Key) -> Row:
    st.subheader("What you offer")
    usual: str = shown.get("place", "")
    told: Row = {
        "place": st.selectbox(
            "Usual place of tax",
            list(places),
            index=list(places).index(usual) if usual in places else None,
            format_func=places.__getitem__,
            key=key("place"),
        ),
        "valid_days": st.number_input(
            "Offers hold, days", 0, 3650, int(shown.get("valid_days", 30)), key=key("valid")
        ),
        "deposit": _share("Deposit, % of the first visit", shown.get("deposit"), key("deposit")),
        "rounding_step": _amount(
            "Round to a step of", shown.get("rounding_step"), key("step"),
            help="Such as 0.05, 1 or 5; 0 for the smallest coin.",
        ),
    }  # fmt: skip
    told["rounding_of"] = st.radio(
        "What is rounded",
        list(_ROUNDED),
        index=list(_ROUNDED).index(Rounded(shown.get("rounding_of", Rounded.TOTAL))),
        format_func=_ROUNDED.__getitem__,
        key=key("rounded"),
    ).value
    told["rounding_halves"] = st.radio(
        "A half goes",
        list(_HALVES),
        index=list(_HALVES).index(Halves(shown.get("rounding_halves", Halves.UP))),
        format_func=_HALVES.__getitem__,
        key=key("halves"),
        horizontal=True,
    ).value
    return told


def _share(label: str, shown: Any, key: str) -> float | None:
    value = st.number_input(label, 0.0, value=percent(shown), step=1.0, format="%.4g", key=key)
    return None if value is None else round(value / 100, 8)


def _amount(label: str, shown: Any, key: str, help: str | None = None) -> float | None:
    given = None if shown in (None, "") else float(shown)
    return st.number_input(label, 0.0, value=given, step=0.5, format="%.2f", key=key, help=help)
