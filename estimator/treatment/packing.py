"""How a volume is parted into tanks: a small integer optimisation, exact.

All volumes are whole numbers of one small unit, such as a mark of the jug.
"""

from collections.abc import Collection


def packed(volumes: Collection[int], needed: int) -> tuple[int, ...]:
    """Return the volumes of tanks that make up at least what is needed, the fullest first.

    Of all ways, those of the fewest tanks; of these, those with the least left over; of these, one
    with the fewest tanks that differ from a full one.

    A way is told by what each tank lacks of a full one. What all may lack together is less than one
    full tank, so that the sums within reach fit into the bits of one number, and each further tank
    that is not full shifts them by everything that it may lack.

    Parameters
    ----------
    volumes
        Every volume above 0 that one tank can be filled with.

    Examples
    --------
    >>> packed({8, 5, 3}, 12)
    (8, 5)
    """
    full = max(volumes)
    tanks = -(-needed // full)
    slack = tanks * full - needed
    lacks = sorted({full - volume for volume in volumes if 0 < full - volume <= slack})
    within = (1 << (slack + 1)) - 1
    reached = [1]
    """Bit s of number k: whether at most k tanks that are not full can lack s together."""
    while len(reached) <= tanks and not reached[-1] >> slack:
        sums = reached[-1]
        for lack in lacks:
            sums |= reached[-1] << lack
        if sums & within == reached[-1]:
            break
        reached.append(sums & within)
    left = reached[-1].bit_length() - 1
    differing = next(count for count, sums in enumerate(reached) if sums >> left & 1)
    parted = []
    for before in reversed(reached[:differing]):
        lack = next(one for one in lacks if one <= left and before >> (left - one) & 1)
        parted.append(lack)
        left -= lack
    return (*[full] * (tanks - differing), *sorted((full - lack for lack in parted), reverse=True))
