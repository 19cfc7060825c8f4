"""When the work is done, and what that adds to the wage."""

from decimal import Decimal
from enum import StrEnum

from attrs import frozen

from estimator.price.amounts import priced


class Hours(StrEnum):
    """The hours a visit falls in."""

    DAY = "day"
    EVENING = "evening"
    NIGHT = "night"
    WEEKEND = "weekend"


@frozen(kw_only=True, field_transformer=priced)
class Premium:
    """What the hours add to all labour, on site and on the road, as a share of it."""

    hours: Hours
    share: Decimal
    source: str
    as_of: str
