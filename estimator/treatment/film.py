"""How much liquid is laid on a surface."""

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import CubicMetresPerSquareMetre, Share, checked
from estimator.surfaces.schedule import Lie


@frozen(kw_only=True, field_transformer=checked)
class Film:
    """The wet film wanted on surfaces that lie in one way.

    Parameters
    ----------
    volume
        Liquid laid on the surface in one pass; 1 mL/m² is 1 µm of film.
    most
        Liquid one pass can lay before it runs or drips.
    loss
        Share added for spray that misses the surface.
    """

    lie: Lie
    volume: CubicMetresPerSquareMetre
    most: CubicMetresPerSquareMetre
    loss: Share
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if not 0 < self.volume <= self.most:
            raise QuantityError(
                f"film on {self.lie.value} surfaces",
                "it is nothing, or more than a pass can lay without running off",
                "give one above 0 and at most the most of a pass",
            )
