"""Work out one input: plan, surfaces, solution, visit and price, or the sentence why not."""

from attrs import evolve

from estimator.batch.basis import Basis
from estimator.batch.inputs import content_digest
from estimator.batch.row import Row, Status
from estimator.errors import BatchError, EstimatorError
from estimator.plan.plan import Plan
from estimator.plan.review import review
from estimator.quote.quote import Quote
from estimator.workflow.opening import open_plan
from estimator.workflow.pages import File
from estimator.workflow.quoting import estimate


def worked_out(name: str, content: bytes, basis: Basis) -> Row:
    """Return the row of one input, whatever becomes of it."""
    row = refused(name, "", basis, digest=content_digest(content))
    try:
        plan = open_plan(File(name=name, content=content), basis.book).plan
        row = _read(row, plan)
        return _quoted(row, estimate(plan, book=basis.book, job=basis.job))
    except EstimatorError as error:
        return evolve(row, says=str(error))
    except MemoryError:
        return evolve(row, status=Status.LOST, says=str(_not_worked_out(name, "memory ran out")))
    except Exception as error:  # one strange file must not end a batch
        problem = f"it could not be worked out ({type(error).__name__})"
        return evolve(row, says=str(_not_worked_out(name, problem)))


def refused(
    name: str, says: str, basis: Basis, *, digest: str = "", status: Status = Status.FAILED
) -> Row:
    """Return the row of an input that gives no plan."""
    return Row(
        file=name,
        status=status,
        says=says,
        digest=digest,
        basis=basis.digest,
        version=basis.version,
    )


def _read(row: Row, plan: Plan) -> Row:
    outlines = [room.outline for room in plan.rooms if room.outline]
    checks = review(plan)
    return evolve(
        row,
        status=Status.READ,
        title=plan.title,
        storeys=len(plan.storeys),
        rooms=len(plan.rooms),
        floor=sum(outline.area for outline in outlines) if plan.is_scaled else None,
        doubts=len(plan.doubts),
        look_first=checks[0].says if checks else "",
    )


def _quoted(row: Row, quote: Quote) -> Row:
    return evolve(
        row,
        status=Status.QUOTED,
        floor=quote.schedule.floor_area,
        treated=quote.schedule.treated,
        volume=quote.solution.volume,
        on_site=quote.timetable.on_site,
        price=quote.price.total,
        low=quote.range.p10,
        high=quote.range.p90,
        doubts=len(quote.assumptions),
    )


def _not_worked_out(name: str, problem: str) -> EstimatorError:
    return BatchError(name, problem, "send it in another format, or type the rooms")
