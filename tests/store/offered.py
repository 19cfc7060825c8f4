"""Work changed and quoted, for several tests of the store."""

from attrs import evolve

from estimator.plan.edits import with_height
from estimator.workflow.quoting import estimate


def higher(work, height):
    """Return the work with its first room so high."""
    return evolve(work, plan=with_height(work.plan, "room-1", height))


def quoted(work, date="2026-11-25"):
    """Return the quote for a work."""
    return estimate(work.plan, book=work.book, job=work.job, date=date)
