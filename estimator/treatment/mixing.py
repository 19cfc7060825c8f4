"""How the solution of one strength is made up, tank by tank, from what a crew can measure.

Water comes in marks of the jug, product in whole tablets, steps of the scales or marks of the
cylinder. Every tank is at least as strong as wanted and no stronger than the label allows; how the
tanks are filled so that least is left over is told by `estimator.treatment.packing`.
"""

import math
from collections.abc import Iterator

from attrs import frozen

from estimator.errors import TreatmentError
from estimator.measures import CubicMetres, Kilograms, KilogramsPerCubicMetre, Ratio
from estimator.treatment.dilution import ppm_words, rounded_down, rounded_up, strength_obtained
from estimator.treatment.measuring import Measuring
from estimator.treatment.packing import packed
from estimator.treatment.product import Form, Product
from estimator.treatment.solution import TankFill

TOLERATED: Ratio = 1.25
"""Whole tablets may make the solution this much stronger than wanted before more water is added,
though some is then left over: 5 tablets for 4.26 (1175 ppm for 1000) are taken as they are (our own
choice)."""

TOLERATED_MEASURED: Ratio = 1.05
"""The same for powder and liquid, which are measured in small steps (our own choice)."""

_UNIT: CubicMetres = 1e-6
"""Volumes are told apart to a millilitre."""

_JUST: Ratio = 1 + 1e-9
"""How far above a limit rounding in floats alone may lie."""


def tank_fills(
    needed: CubicMetres,
    wanted: KilogramsPerCubicMetre,
    product: Product,
    tank: CubicMetres,
    measuring: Measuring,
) -> tuple[TankFill, ...]:
    """Return the fills of a tank that make up a volume of at least the strength wanted.

    Raises
    ------
    TreatmentError
        When the label does not allow it or does not say what the product releases, or the tank
        holds less than a mark of the jug.
    """
    _refuse_above_label(wanted, product)
    if not needed:
        return ()
    portion = _portion(product, wanted, measuring)
    fills = _possible(portion, wanted, product, tank)
    return tuple(
        _filled(fills[volume], product) for volume in packed(fills, rounded_up(needed / _UNIT))
    )


@frozen(kw_only=True)
class _Portion:
    """The smallest step of product that can be measured.

    Parameters
    ----------
    size
        A tablet (1), kilograms of powder or cubic metres of liquid in one.
    chlorine
        Available chlorine in one.
    takes
        Room that one takes up in the tank.
    mark
        Water between two marks of the jug; 0 for a product that no water is added to.
    """

    size: float
    chlorine: Kilograms
    takes: CubicMetres
    mark: CubicMetres


@frozen
class _Fill:
    """One filling of the tank: so many portions of product and marks of water."""

    portion: _Portion
    portions: int
    marks: int

    @property
    def volume(self) -> CubicMetres:
        return self.portions * self.portion.takes + self.marks * self.portion.mark

    @property
    def strength(self) -> KilogramsPerCubicMetre:
        return strength_obtained(self.portions * self.portion.chlorine, self.volume)


def _portion(product: Product, wanted: KilogramsPerCubicMetre, measuring: Measuring) -> _Portion:
    """Return the step that a form of product is measured in."""
    mark = measuring.mark
    if product.form is Form.TABLET:
        each = _declared(product, product.available_per_tablet, "chlorine per tablet")
        return _Portion(size=1, chlorine=each, takes=0.0, mark=mark)
    if product.form is Form.POWDER:
        share = _declared(product, product.available_share, "chlorine as a share of the mass")
        step = measuring.scales
        return _Portion(size=step, chlorine=step * share, takes=0.0, mark=mark)
    strength = _declared(product, product.available_strength, "chlorine by volume")
    if strength < wanted:
        raise TreatmentError(
            product.label,
            f"it holds {ppm_words(strength)}, weaker than the {ppm_words(wanted)} wanted",
            "choose a stronger product or a weaker zone",
        )
    if product.form is Form.READY:
        return _Portion(size=mark, chlorine=mark * strength, takes=mark, mark=0.0)
    step = measuring.cylinder
    return _Portion(size=step, chlorine=step * strength, takes=step, mark=mark)


def _possible(
    portion: _Portion, wanted: KilogramsPerCubicMetre, product: Product, tank: CubicMetres
) -> dict[int, _Fill]:
    """Return every volume a tank can hold at the strength asked for, with the least product.

    Where nothing comes as close as is tolerated, what comes closest counts. What is measured may be
    as strong as it is in a full tank, so that it takes no more tanks than need be.
    """
    weakest = [fill for fill in _weakest(portion, wanted, tank) if fill.volume <= tank * _JUST]
    if not weakest:
        raise TreatmentError(
            product.label,
            "a tank holds less than the smallest measure of water and product",
            "use a larger tank or finer measures",
        )
    closest = min(fill.strength for fill in weakest)
    _refuse_too_coarse(closest, product)
    most = math.inf if product.most is None else product.most
    tolerated = max(closest, TOLERATED * wanted)
    if product.form is not Form.TABLET:
        tolerated = max(closest, TOLERATED_MEASURED * wanted, weakest[-1].strength)
    limit = _JUST * min(most, tolerated)
    return {rounded_down(fill.volume / _UNIT): fill for fill in weakest if fill.strength <= limit}


def _weakest(
    portion: _Portion, wanted: KilogramsPerCubicMetre, tank: CubicMetres
) -> Iterator[_Fill]:
    """Yield the fills with the least product that is strong enough, by the water they take."""
    spare = portion.chlorine - wanted * portion.takes
    if not portion.mark or spare <= wanted * portion.takes * (_JUST - 1):  # no water is added
        for portions in range(1, rounded_down(tank / portion.takes) + 1):
            yield _Fill(portion, portions, 0)
        return
    for marks in range(1, rounded_down(tank / portion.mark) + 1):
        portions = rounded_up(wanted * marks * portion.mark / spare)
        yield _Fill(portion, portions, marks)


def _filled(fill: _Fill, product: Product) -> TankFill:
    amount = fill.portions * fill.portion.size
    return TankFill(
        volume=fill.volume,
        tablets=fill.portions if product.form is Form.TABLET else 0,
        powder=amount if product.form is Form.POWDER else 0.0,
        concentrate=amount if product.form in (Form.LIQUID, Form.READY) else 0.0,
        water=fill.marks * fill.portion.mark,
        strength=fill.strength,
    )


def _declared(product: Product, value: float | None, fact: str) -> float:
    """Return a fact of the label that nothing can be mixed without."""
    if not value:
        raise TreatmentError(
            product.label, f"its available {fact} is not known", "enter it from the label"
        )
    return value


def _refuse_above_label(strength: KilogramsPerCubicMetre, product: Product) -> None:
    """Refuse a strength the label does not allow."""
    if product.most is not None and strength > product.most * _JUST:
        raise TreatmentError(
            product.label,
            f"{ppm_words(strength)} is more than the {ppm_words(product.most)} its label allows",
            "choose a weaker zone or another product",
        )


def _refuse_too_coarse(closest: KilogramsPerCubicMetre, product: Product) -> None:
    """Refuse a strength that no tank of whole portions can keep to."""
    if product.form is Form.READY:
        _refuse_above_label(closest, product)
    elif product.most is not None and closest > product.most * _JUST:
        what = "whole tablets make" if product.form is Form.TABLET else "what can be measured makes"
        raise TreatmentError(
            product.label,
            f"{what} at least {ppm_words(closest)} in a full tank, more than the "
            f"{ppm_words(product.most)} its label allows",
            "use a larger tank, smaller tablets or finer measures",
        )
