"""Strength zones: the strength and contact time wanted for a class of rooms or surfaces."""

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import KilogramsPerCubicMetre, Seconds, checked


@frozen(kw_only=True, field_transformer=checked)
class Zone:
    """A strength zone.

    Parameters
    ----------
    strength
        Available chlorine in the solution sprayed; 1 kg/m³ is 1000 ppm (1 ppm = 1 mg/L).
    contact_time
        How long the surface must stay visibly wet.
    source
        Where the two come from.
    """

    slug: str
    label: str
    strength: KilogramsPerCubicMetre
    contact_time: Seconds
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if not self.strength > 0:
            raise QuantityError(self.label, "its strength is 0 ppm", "give one above 0")
