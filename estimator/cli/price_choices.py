"""What is agreed with the client, as arguments of a command."""

import argparse
from decimal import Decimal, InvalidOperation

from attrs import evolve

from estimator.errors import QuantityError
from estimator.estimation.job import Alternative, Job
from estimator.price.hours import Hours
from estimator.price.recurrence import Every
from estimator.quantities.journeys import journey
from estimator.quantities.written import quantity
from estimator.workflow.scopes import scope_of


def add_to(command: argparse.ArgumentParser) -> None:
    """Add the arguments to a command."""
    add = command.add_argument_group("what is agreed").add_argument
    add("--distance", metavar="WAY", help="way to the site, one way, such as 12 km")
    add("--drive", metavar="TIME", help="drive to the site, one way, such as '25 min'")
    add("--hours", type=Hours, choices=list(Hours), help="hours of the visit, which may cost more")
    add("--visits", type=int, metavar="N", help="visits of the term (1)")
    add("--every", type=Every, choices=list(Every), help="how often they come")
    add("--discount", metavar="PERCENT", help="taken off before tax")
    add("--place", metavar="SLUG", help="place of the book whose taxes are charged")
    add(
        "--option",
        action="append",
        default=[],
        metavar="SURFACES",
        help="another scope to offer, such as 'floors, walls to 2 m, furniture'; may be repeated",
    )
    add("--range", action="store_true", help="offer the likely range in place of a fixed price")


def agreed(job: Job, chosen: argparse.Namespace) -> Job:
    """Return a job with what was agreed by the arguments.

    Raises
    ------
    QuantityError
        When a measure, a share or a surface cannot be read.
    """
    return evolve(
        job,
        distance=2 * journey(chosen.distance) if chosen.distance else job.distance,
        road_time=2 * quantity(chosen.drive, "s") if chosen.drive else job.road_time,
        hours=chosen.hours or job.hours,
        visits=job.visits if chosen.visits is None else chosen.visits,
        every=chosen.every or job.every,
        discount=_percent(chosen.discount) if chosen.discount else job.discount,
        place=chosen.place or job.place,
        alternatives=tuple(Alternative(scope=scope_of(words)) for words in chosen.option),
        fixed=not chosen.range,
    )


def _percent(written: str) -> Decimal:
    try:
        return Decimal(written.removesuffix("%").strip()) / 100
    except InvalidOperation:
        raise QuantityError(written, "it is no per cent", "give a number such as 5") from None
