"""What a crew measures water and product with."""

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import CubicMetres, Kilograms, checked
from estimator.treatment.dilution import rounded_down

_DROP: CubicMetres = 1e-9
"""A microlitre: less than that only rounding in floats leaves."""


@frozen(kw_only=True, field_transformer=checked)
class Measuring:
    """The crew's jug, scales and measuring cylinder.

    Parameters
    ----------
    jug
        Water one filling of the jug holds.
    mark
        Water between two marks of the jug.
    scales
        Smallest step of the scales that powder is weighed on.
    cylinder
        Liquid between two marks of the cylinder that concentrate is measured in.
    """

    jug: CubicMetres
    mark: CubicMetres
    scales: Kilograms
    cylinder: CubicMetres
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if not min(self.mark, self.scales, self.cylinder) > 0:
            raise QuantityError(
                "measuring", "a mark or the step of the scales is 0", "give each above 0"
            )
        if self.mark > self.jug:
            raise QuantityError(
                "measuring", "its marks are further apart than the jug holds", "swap the two"
            )

    def jugs(self, volume: CubicMetres) -> tuple[int, CubicMetres]:
        """Return how many whole jugs a volume is, and the rest."""
        whole = rounded_down(volume / self.jug)
        rest = volume - whole * self.jug
        return whole, rest if rest > _DROP else 0.0
