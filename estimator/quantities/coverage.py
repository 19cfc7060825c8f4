"""How much surface a litre covers, as sprayers are advertised."""

from estimator.errors import QuantityError, WrongDimension
from estimator.measures import CubicMetresPerSquareMetre
from estimator.quantities.lengths import quoted
from estimator.quantities.registry import in_base_units
from estimator.quantities.shown import Units, figures
from estimator.quantities.written import quantity

_COVERAGE = "m^2/m^3"


def coverage_film(text: str) -> CubicMetresPerSquareMetre:
    """Read a coverage, or a film, into the film that it comes to.

    Raises
    ------
    QuantityError
        When it is neither, or nothing at all.

    Examples
    --------
    >>> round(1e6 * coverage_film("800 m² per 8 L"), 9), round(1e6 * coverage_film("10 mL/m²"), 9)
    (10.0, 10.0)
    """
    try:
        film = quantity(text, "m^3/m^2")
    except WrongDimension:
        covered = quantity(text, _COVERAGE)
        film = 1 / covered if covered else 0.0
    if not film:
        raise QuantityError(
            quoted(text), "it covers nothing", "give a coverage such as 100 m²/L or 800 m² per 8 L"
        )
    return film


def shown_coverage(film: CubicMetresPerSquareMetre, units: Units) -> str:
    """Return how much surface a measure covers with a film of so much.

    >>> shown_coverage(40e-6, Units.METRIC), shown_coverage(40e-6, Units.US)
    ('25 m²/L', '1,019 ft²/US gal')
    """
    unit = "m²/L" if units is Units.METRIC else "ft²/US gal"
    factor = in_base_units("m^2/L" if units is Units.METRIC else "ft^2/US gal", unit)[0]
    return f"{figures(1 / film / factor)} {unit}"
