"""What the crew lead must know about the visit as a whole."""

from collections.abc import Iterator

from estimator.measures import Seconds
from estimator.visit.equipment import WorkingTime


def findings(crew: int, on_site: Seconds, rest: WorkingTime) -> Iterator[str]:
    """Yield a sentence for each thing that is out of the ordinary."""
    if crew == 1:
        yield (
            "One person works alone: arrange a second person or calls at agreed times "
            "(lone-working guidance of the UK HSE, from memory)."
        )
    if on_site > rest.longest_day:
        yield (
            f"The visit takes {on_site / 3600:.1f} h on site, longer than the "
            f"{rest.longest_day / 3600:g} h of a working day: bring more people or part it in two."
        )
