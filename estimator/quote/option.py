"""An option: the same site treated in another scope, at its own price."""

from attrs import frozen

from estimator.measures import CubicMetres, Seconds, SquareMetres, checked
from estimator.price.build_up import Price
from estimator.quote.likely import Range
from estimator.surfaces.scope import Scope


@frozen(kw_only=True, field_transformer=checked)
class Option:
    """What a client may choose, named by what it covers.

    Parameters
    ----------
    volume
        Solution that it takes.
    """

    name: str
    scope: Scope
    treated: SquareMetres
    volume: CubicMetres
    on_site: Seconds
    price: Price
    range: Range
