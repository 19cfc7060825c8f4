"""The strength a label declares, and per cent of what it is.

The formulas are those of the *Handbook of Chlorination*, see `estimator.treatment.dilution`.
"""

from enum import StrEnum

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import Kilograms, KilogramsPerCubicMetre, Ratio, Share, checked
from estimator.treatment.dilution import (
    WATER_DENSITY,
    available_share_from_hypochlorite,
    strength_from_trade_share,
    strength_from_weight_share,
)
from estimator.treatment.product import Form


class Basis(StrEnum):
    """What a declared per cent is a share of."""

    TRADE = "trade strength: grams of available chlorine per litre divided by 10"
    VOLUME = "available chlorine by weight per volume: 1 % is 10 g/L"
    WEIGHT = "available chlorine by weight"
    HYPOCHLORITE = "sodium hypochlorite by weight"


@frozen(kw_only=True, field_transformer=checked)
class Declared:
    """What a product releases, in the one way that its form asks for, and the basis in words."""

    available_per_tablet: Kilograms | None = None
    available_share: Share | None = None
    available_strength: KilogramsPerCubicMetre | None = None
    basis: str


def per_tablet(mass: Kilograms) -> Declared:
    """Return what a label declares as available chlorine in one tablet."""
    return Declared(available_per_tablet=mass, basis="mass of available chlorine in one tablet")


def of_solution(strength: KilogramsPerCubicMetre) -> Declared:
    """Return what a label declares in ppm or grams per litre."""
    return Declared(available_strength=strength, basis="available chlorine by weight per volume")


def per_cent(
    share: Share, basis: Basis, form: Form, *, specific_gravity: Ratio | None = None
) -> Declared:
    """Return what a label declares in per cent of something.

    Raises
    ------
    QuantityError
        When the basis does not suit the form, or a liquid by weight has no specific gravity.
    """
    where = f"{100 * share:g} %"
    if form is Form.TABLET:
        raise QuantityError(
            where, "the strength of tablets is what one releases", "write it like 1.5 g per tablet"
        )
    by_weight = basis in (Basis.WEIGHT, Basis.HYPOCHLORITE)
    if form is Form.POWDER:
        if basis is not Basis.WEIGHT:
            raise QuantityError(
                where, "a powder is declared by weight", f"write it like {where} by weight"
            )
        return Declared(available_share=share, basis=f"{where} {basis.value}")
    if not by_weight:
        strength = strength_from_trade_share(share)
        if basis is Basis.VOLUME:
            strength = share * WATER_DENSITY
        return Declared(available_strength=strength, basis=f"{where} {basis.value}")
    if not specific_gravity:
        raise QuantityError(
            where,
            "a liquid by weight needs its specific gravity",
            f"write it like {where} by weight, SG 1.16",
        )
    available = share if basis is Basis.WEIGHT else available_share_from_hypochlorite(share)
    return Declared(
        available_strength=strength_from_weight_share(available, specific_gravity),
        basis=f"{where} {basis.value}, specific gravity {specific_gravity:g}",
    )
