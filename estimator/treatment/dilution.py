"""Chlorine arithmetic: how much of what makes a solution of a given strength.

Strengths are mass of available chlorine per volume; for dilute water-like solutions 1 ppm is taken
as 1 mg/L = 0.001 kg/m³, and 1 % as 10 g/L, as guidance documents do [1]_ [2]_. Every formula is
plain arithmetic, so that it also takes arrays or quantities with units.

References
----------
.. [1] World Health Organization, *Laboratory biosafety manual*: strengths are weight per volume
   unless said otherwise.
.. [2] Cholera field guide, Appendix 14: "a 1% solution contains 10 g of chlorine per litre =
   10 000 mg/litre or 10 000 ppm".
"""

import math

from estimator.measures import (
    CubicMetres,
    Kilograms,
    KilogramsPerCubicMetre,
    KilogramsPerMole,
    Ratio,
    Share,
)

PART_PER_MILLION: KilogramsPerCubicMetre = 0.001
"""1 mg/L, by the convention above."""

CHLORINE_MOLAR_MASS: KilogramsPerMole = 0.070906
"""Cl₂, from the conventional atomic mass of chlorine, 35.453 (IUPAC)."""

WATER_DENSITY: KilogramsPerCubicMetre = 1000.0
"""What specific gravity is counted from, rounded as in the definition of ppm above."""

HYPOCHLORITE_PER_AVAILABLE: Ratio = 74.442 / 70.906
"""Mass of NaOCl that releases a mass of available chlorine, by molar masses; about 1.05."""

_ROUNDING: Ratio = 1e-9
"""How far above a whole number a count may lie from rounding in floats alone."""


def from_ppm(ppm: Ratio) -> KilogramsPerCubicMetre:
    """Return the strength of a solution stated in parts per million.

    >>> from_ppm(1000)
    1.0
    """
    return ppm * PART_PER_MILLION


def to_ppm(strength: KilogramsPerCubicMetre) -> Ratio:
    """Return a strength in parts per million.

    >>> to_ppm(5.0)
    5000.0
    """
    return strength / PART_PER_MILLION


def ppm_words(strength: KilogramsPerCubicMetre) -> str:
    """Return a strength in whole parts per million.

    >>> ppm_words(1.125)
    '1,125 ppm'
    """
    return f"{to_ppm(strength):,.0f} ppm"


def concentrate_needed(
    volume: CubicMetres, wanted: KilogramsPerCubicMetre, concentrate: KilogramsPerCubicMetre
) -> CubicMetres:
    """Return the concentrate that makes a volume of solution, by C₁V₁ = C₂V₂ (textbook)."""
    return volume * (wanted / concentrate)


def strength_obtained(chlorine: Kilograms, volume: CubicMetres) -> KilogramsPerCubicMetre:
    """Return the strength of so much available chlorine made up to a volume."""
    return chlorine / volume


def water_parts(concentrate: KilogramsPerCubicMetre, wanted: KilogramsPerCubicMetre) -> Ratio:
    """Return the parts of water to add to one part of liquid: (% in liquid ÷ % wanted) − 1 [1]_.

    References
    ----------
    .. [1] CDC, *Best Practices for Environmental Cleaning in Global Healthcare Facilities*,
       Appendix E.

    Examples
    --------
    >>> water_parts(35.0, 5.0)
    6.0
    """
    return concentrate / wanted - 1


def powder_per_volume(wanted: KilogramsPerCubicMetre, available: Share) -> KilogramsPerCubicMetre:
    """Return the powder for each volume of solution: (% wanted ÷ % in powder) × 1000 g/L [1]_.

    References
    ----------
    .. [1] CDC, *Best Practices for Environmental Cleaning in Global Healthcare Facilities*,
       Appendix E.

    Examples
    --------
    >>> round(powder_per_volume(5.0, 0.35), 1)  # 0.5 % from a powder of 35 %, in g/L
    14.3
    """
    return wanted / available


def tablets_needed(
    volume: CubicMetres, wanted: KilogramsPerCubicMetre, per_tablet: Kilograms
) -> int:
    """Return how many whole tablets give at least the strength wanted, rounded up [1]_.

    References
    ----------
    .. [1] World Health Organization, *Laboratory biosafety manual*, Table 12: tablets of 1.5 g
       available chlorine, 1 per litre for 0.1 % and 4 per litre for 0.5 %.

    Examples
    --------
    >>> tablets_needed(0.001, 5.0, 0.0015)
    4
    """
    return rounded_up(volume * wanted / per_tablet)


def rounded_up(count: Ratio) -> int:
    """Return the whole number above, forgiving what rounding in floats added."""
    return math.ceil(count - _ROUNDING * (1 + abs(count)))


def rounded_down(count: Ratio) -> int:
    """Return the whole number below, forgiving what rounding in floats took away."""
    return math.floor(count + _ROUNDING * (1 + abs(count)))


def available_chlorine(active_chlorines: int, molar_mass: KilogramsPerMole) -> Share:
    """Return available chlorine as a share of the mass of a pure substance.

    Each active chlorine atom oxidises as much as one molecule of Cl₂, which defines 100 %.

    >>> round(available_chlorine(2, 0.219947), 4)  # sodium dichloroisocyanurate, anhydrous
    0.6448
    """
    return active_chlorines * CHLORINE_MOLAR_MASS / molar_mass


def strength_from_trade_share(trade: Share) -> KilogramsPerCubicMetre:
    """Return the strength of a liquid by its trade percent: grams per litre ÷ 10.

    The formulas for "percent of what" are those of the *Handbook of Chlorination*.

    >>> strength_from_trade_share(0.125)
    125.0
    """
    return trade * WATER_DENSITY


def strength_from_weight_share(available: Share, specific_gravity: Ratio) -> KilogramsPerCubicMetre:
    """Return the strength of a liquid by its weight percent of available chlorine.

    Weight % = trade % ÷ specific gravity (*Handbook of Chlorination*).
    """
    return available * specific_gravity * WATER_DENSITY


def available_share_from_hypochlorite(hypochlorite: Share) -> Share:
    """Return the weight share of available chlorine from that of sodium hypochlorite.

    Weight % NaOCl = weight % available × 1.05 (*Handbook of Chlorination*).
    """
    return hypochlorite / HYPOCHLORITE_PER_AVAILABLE
