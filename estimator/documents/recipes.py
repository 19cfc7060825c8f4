"""How a solution is made by rule, so that a crew can check a tank, and the units on its jug."""

from estimator.measures import CubicMetres
from estimator.quantities import Units, shown_concentration, shown_mass, shown_volume
from estimator.treatment.dilution import concentrate_needed, powder_per_volume, water_parts
from estimator.treatment.measuring import Measuring
from estimator.treatment.product import Form, Product
from estimator.treatment.solution import Mix

_LITRE: CubicMetres = 1e-3
_MILLILITRE: CubicMetres = 1e-6
_US_FLUID_OUNCE: CubicMetres = 231 * 0.0254**3 / 128
_ROUNDING = 1e-6


def recipe_words(mix: Mix, product: Product | None) -> str:
    """Return the rule that makes exactly the strength wanted; nothing where none is needed.

    The formulas are those of CDC, *Best Practices for Environmental Cleaning in Global Healthcare
    Facilities*, Appendix E; "1:10" is not written, since it is read in two ways.
    """
    if product is None:
        return ""
    rule = ""
    if product.form is Form.TABLET and product.available_per_tablet:
        made = product.available_per_tablet / mix.wanted
        rule = f"one tablet to {shown_volume(made, Units.METRIC)} of solution"
    elif product.form is Form.POWDER and product.available_share:
        powder = powder_per_volume(mix.wanted, product.available_share) * _LITRE
        rule = f"{shown_mass(powder, Units.METRIC)} of powder to each litre of solution"
    elif product.form is Form.LIQUID and product.available_strength:
        liquid = concentrate_needed(_LITRE, mix.wanted, product.available_strength)
        parts = water_parts(product.available_strength, mix.wanted)
        rule = (
            f"1 part of product plus {parts:.3g} parts of water, "
            f"{shown_volume(liquid, Units.METRIC)} in each litre of solution"
        )
    return f"By rule, {shown_concentration(mix.wanted)} is {rule}." if rule else ""


def jug_units(measuring: Measuring, units: Units) -> Units:
    """Return the units that the marks of a jug are whole in, or those asked for.

    >>> from estimator.treatment.measuring import Measuring
    >>> litre = dict(scales=1e-4, cylinder=1e-6, source="invented", as_of="2026")
    >>> jug_units(Measuring(jug=1e-3, mark=5e-5, **litre), Units.US).value
    'metric'
    """
    for own, least in ((Units.METRIC, _MILLILITRE), (Units.US, _US_FLUID_OUNCE)):
        marks = measuring.mark / least
        if marks > 0.5 and abs(marks - round(marks)) < _ROUNDING:
            return own
    return units
