"""The scales of several pictures: one known size for all of them, and pages that lack one."""

from collections.abc import Iterator, Sequence

from attrs import evolve

from estimator.errors import ScaleUnknown
from estimator.measures import Share
from estimator.plan.edits import rescaled
from estimator.plan.flat import laid_flat
from estimator.plan.plan import Plan
from estimator.plan.storey import Scale, Storey
from estimator.reading import scale as scales
from estimator.workflow.pages import Page, page_of
from estimator.workflow.scaling import (
    DrawnAt,
    Known,
    KnownRoom,
    KnownRoomArea,
    KnownTotal,
    scaled_by,
)

GUESSED_SCALE: Share = 0.05
"""A scale less sure than this is asked about."""

_SAME_SHEET: Share = 0.02  # pages of one size are usually drawn to one scale (common practice)


def sized(plan: Plan, known: Known, pages: Sequence[Page]) -> Plan:
    """Return the plan of several pictures sized by what is known of the first, or of all.

    Raises
    ------
    EstimatorError
        One sentence on why no scale follows from it.
    """
    first = next(_pictured(plan), None)
    if first is None:
        return plan
    if isinstance(known, DrawnAt):
        for storey in _pictured(plan):
            page = page_of(storey, pages)
            here = evolve(known, dpi=known.dpi or (page.dpi if page else None))
            plan = scaled_by(plan, here, storey.number)
        return plan
    if isinstance(known, KnownTotal):
        return _by_total(plan, known)
    if isinstance(known, KnownRoom | KnownRoomArea):
        return scaled_by(plan, known, plan.room(known.room).storey)
    return scaled_by(plan, known, first.number)


def with_shared_scales(plan: Plan) -> Plan:
    """Return the plan with pages that lack a scale sized as another page of their size is."""
    for storey in _pictured(plan):
        if is_sized(storey):
            continue
        alike = [other for other in _pictured(plan) if is_sized(other) and _of_size(storey, other)]
        if alike and alike[0].scale and alike[0].source:
            found = alike[0].scale
            scale = Scale(
                metres_per_px=found.metres_per_px,
                relative_error=max(found.relative_error, _SAME_SHEET),
                basis=f"page {alike[0].source.page}, which has the same size",
            )
            plan = rescaled(plan, scale, storey.number)
    return plan


def is_sized(storey: Storey) -> bool:
    """Tell whether a storey has a scale that is more than a guess."""
    return storey.scale is not None and storey.scale.relative_error <= GUESSED_SCALE


def _pictured(plan: Plan) -> Iterator[Storey]:
    return (storey for storey in plan.storeys if storey.source is not None)


def _of_size(storey: Storey, other: Storey) -> bool:
    """Tell whether two storeys are on pages of one file and size."""
    if storey.sheet or other.sheet:
        return False  # no two photos are taken from one place
    one, two = storey.source, other.source
    return one is not None and two is not None and evolve(one, page=two.page) == two


def _by_total(plan: Plan, known: KnownTotal) -> Plan:
    pictured = list(_pictured(plan))
    if not all(_of_size(pictured[0], storey) for storey in pictured):
        raise ScaleUnknown(
            "total area",
            "it cannot be shared among pictures of different sizes",
            "read them one by one, each with the area it shows",
        )
    numbers = {storey.number for storey in pictured}
    scale = scales.scale_from_total_area(
        [room for room in laid_flat(plan).rooms if room.storey in numbers],
        known.area,
        with_inner_walls=known.with_inner_walls,
    )
    for storey in pictured:
        plan = rescaled(plan, scale, storey.number)
    return plan
