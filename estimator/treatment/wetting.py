"""How long a film of solution stays wet, and how much must be laid for the contact time.

A film of water loses what evaporates from it; it is wet as long as any is left. The liquid laid
must therefore be at least evaporation × contact time (conservation of mass). Dissolved salts slow
evaporation a little, so the times err on the short side. Going back in is held against the slowest
drying instead.
"""

from estimator.measures import (
    CubicMetresPerSquareMetre,
    CubicMetresPerSquareMetreSecond,
    Seconds,
)
from estimator.treatment.dilution import rounded_up
from estimator.treatment.evaporation import Evaporation
from estimator.treatment.film import Film
from estimator.treatment.solution import Wetness


def film_needed(
    evaporation: CubicMetresPerSquareMetreSecond, contact_time: Seconds
) -> CubicMetresPerSquareMetre:
    """Return the least liquid per area that stays wet for the contact time."""
    return evaporation * contact_time


def drying_time(
    film: CubicMetresPerSquareMetre, evaporation: CubicMetresPerSquareMetreSecond
) -> Seconds:
    """Return how long a film stays wet."""
    return film / evaporation


def passes_needed(needed: CubicMetresPerSquareMetre, most: CubicMetresPerSquareMetre) -> int:
    """Return how many passes lay the film needed when one pass can hold only so much."""
    return max(1, rounded_up(needed / most))


def dry_after_last_pass(
    film: CubicMetresPerSquareMetre,
    passes: int,
    evaporation: CubicMetresPerSquareMetreSecond,
    contact_time: Seconds,
) -> Seconds:
    """Return when the surface is dry after the last of passes spread over the contact time."""
    return passes * film / evaporation - (passes - 1) * contact_time / passes


def wetness(
    zone: str,
    contact_time: Seconds,
    film: Film,
    drying: Evaporation,
    *,
    claimed: CubicMetresPerSquareMetre | None = None,
) -> Wetness:
    """Return how a surface is kept wet: the book's film, or more, in as few passes as hold it.

    Parameters
    ----------
    claimed
        Film that an advertised coverage comes to.
    """
    needed = film_needed(drying.fastest, contact_time)
    passes = passes_needed(needed, film.most)
    laid = max(film.volume, needed / passes)
    return Wetness(
        zone=zone,
        lie=film.lie,
        usual=film.volume,
        usual_dries_after=drying_time(film.volume, drying.fastest),
        contact_time=contact_time,
        needed=needed,
        most=film.most,
        film=laid,
        passes=passes,
        stays_wet=drying_time(laid * passes, drying.fastest),
        dries_after=dry_after_last_pass(laid, passes, drying.slowest, contact_time),
        claimed=claimed,
        claimed_dries_after=None if claimed is None else drying_time(claimed, drying.fastest),
    )
