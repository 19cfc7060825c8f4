"""How long a film of solution stays wet, and how much must be laid for the contact time.

A film of water loses what evaporates from it; it is wet as long as any is left. The liquid laid
must therefore be at least evaporation × contact time (conservation of mass). Dissolved salts slow
evaporation a little, so the times err on the short side.
"""

from estimator.measures import (
    CubicMetresPerSquareMetre,
    CubicMetresPerSquareMetreSecond,
    Seconds,
)
from estimator.treatment.dilution import rounded_up
from estimator.treatment.film import Film
from estimator.treatment.solution import Wetness
from estimator.treatment.zone import Zone


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


def wetness(zone: Zone, film: Film, evaporation: CubicMetresPerSquareMetreSecond) -> Wetness:
    """Return how a surface is kept wet: the book's film, or more, in as few passes as hold it."""
    needed = film_needed(evaporation, zone.contact_time)
    passes = passes_needed(needed, film.most)
    return Wetness(
        zone=zone.slug,
        lie=film.lie,
        usual=film.volume,
        usual_dries_after=drying_time(film.volume, evaporation),
        contact_time=zone.contact_time,
        film=max(film.volume, needed / passes),
        passes=passes,
    )
