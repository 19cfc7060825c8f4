"""How long ventilation takes to clear the air of a room."""

import math

from estimator.measures import PerSecond, Ratio, Seconds, Share


def clearing_time(removal: Share, air_changes: PerSecond, mixing_factor: Ratio = 1.0) -> Seconds:
    """Return how long until a share of what floats in the air is gone.

    t = −ln(C₂/C₁) ÷ (Q/V) with C₂/C₁ = 1 − removal [1]_, times a factor for imperfect mixing, up
    to 10 where air distribution is very poor [2]_. It holds only once nothing more is released,
    and by itself never says that people may return.

    References
    ----------
    .. [1] CDC, *Guidelines for Environmental Infection Control in Health-Care Facilities*, 2003,
       Appendix B, Table B.1.
    .. [2] CDC, MMWR 43(RR-13), 1994, Table S3-1.

    Examples
    --------
    >>> round(clearing_time(0.99, 6 / 3600) / 60)
    46
    """
    return -math.log(1 - removal) / air_changes * mixing_factor
