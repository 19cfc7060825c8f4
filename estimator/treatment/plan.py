"""From the schedule of surfaces to the solution that treats them."""

from collections.abc import Sequence

from estimator.measures import CubicMetres, CubicMetresPerSquareMetreSecond
from estimator.surfaces.schedule import Schedule
from estimator.treatment.film import Film
from estimator.treatment.product import Product
from estimator.treatment.solution import Solution
from estimator.treatment.zone import Zone


def treat(
    schedule: Schedule,
    zones: Sequence[Zone],
    films: Sequence[Film],
    product: Product,
    *,
    tank: CubicMetres,
    evaporation: CubicMetresPerSquareMetreSecond,
) -> Solution:
    """Return the solution by strength, mixed tank by tank, that treats every surface."""
    raise NotImplementedError
