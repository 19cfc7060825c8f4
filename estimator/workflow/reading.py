"""Read a picture, a PDF page or a drawing into a plan."""

from pathlib import Path

from attrs import frozen

from estimator.errors import EstimatorError
from estimator.intake.drawings.vector_page import vector_plan
from estimator.intake.pictures import content_of, open_bytes
from estimator.plan.plan import Plan
from estimator.quantities.scales import drawing_scale
from estimator.reading.arrays import Pixels
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.reading.scale import stated_scales
from estimator.workflow.drawings import drawing_plan
from estimator.workflow.scaling import DrawnAt, Known, scaled_by, scaled_by_doors


@frozen(kw_only=True, eq=False)
class ReadPlan:
    """A plan with the picture it was read from; None for a drawing that is geometry."""

    plan: Plan
    pixels: Pixels | None
    dpi: float | None


def read_plan(path: str | Path, *, page: int = 1, known: Known | None = None) -> Plan:
    """Return the plan read from a picture, a PDF page, a DXF or an IFC.

    A DXF and an IFC have their sizes in them. The scale of a picture follows from what is known;
    or else from a drawing scale printed in the file's text; or else from a guess by its doors,
    said to be one.

    Raises
    ------
    SourceError
        When the file cannot be opened.
    ReadingError
        When it shows no plan.
    """
    return read_file(Path(path), page=page, known=known).plan


def read_file(path: Path, *, page: int = 1, known: Known | None = None) -> ReadPlan:
    """Do the same and keep the picture."""
    return _read(content_of(path), path.name, page, known)


def read_upload(data: bytes, name: str, *, page: int = 1) -> ReadPlan:
    """Do the same with a file's content."""
    return _read(data, name, page, None)


def _read(data: bytes, name: str, page: int, known: Known | None) -> ReadPlan:
    drawn = drawing_plan(data, name)
    if drawn is not None:
        return ReadPlan(plan=drawn, pixels=None, dpi=None)
    picture = open_bytes(data, name, page)
    plan = vector_plan(data, picture) or read(picture).plan
    if isinstance(known, DrawnAt) and known.dpi is None:
        known = DrawnAt(drawing_scale=known.drawing_scale, dpi=picture.dpi)
    plan = scaled_by(plan, known) if known else _scaled_by_the_file(plan, picture)
    return ReadPlan(plan=plan, pixels=picture.pixels, dpi=picture.dpi)


def _scaled_by_the_file(plan: Plan, picture: Picture) -> Plan:
    for text in stated_scales(picture):
        try:
            return scaled_by(plan, DrawnAt(drawing_scale=drawing_scale(text), dpi=picture.dpi))
        except EstimatorError:
            continue
    return scaled_by_doors(plan)
