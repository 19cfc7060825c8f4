"""Read a picture, a PDF page or a drawing into a plan."""

from pathlib import Path

from attrs import frozen

from estimator.errors import EstimatorError
from estimator.intake.drawings.vector_page import vector_plan
from estimator.intake.pictures import content_of, open_bytes
from estimator.lettering.consensus import Vote
from estimator.lettering.lettered import lettered, scaled
from estimator.plan.plan import Plan
from estimator.quantities.scales import drawing_scale
from estimator.reading.arrays import Pixels
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.reading.scale import stated_scales
from estimator.workflow.drawings import drawing_plan
from estimator.workflow.measuring import standard_book
from estimator.workflow.scaling import DrawnAt, Known, scaled_by, scaled_by_doors


@frozen(kw_only=True, eq=False)
class ReadPlan:
    """A plan with the picture it was read from; None for a drawing that is geometry.

    Parameters
    ----------
    votes
        What each printed figure says of the scale; empty when somebody said the scale.
    """

    plan: Plan
    pixels: Pixels | None
    dpi: float | None
    votes: tuple[Vote, ...] = ()


def read_plan(
    path: str | Path, *, page: int = 1, known: Known | None = None, lettering: bool = True
) -> Plan:
    """Return the plan read from a picture, a PDF page, a DXF or an IFC.

    A DXF and an IFC have their sizes in them. The scale of a picture follows from what is known;
    or else from what is printed on it; or else from a guess by its doors, said to be one.

    Parameters
    ----------
    lettering
        Whether to read the lettering of a picture, which names the rooms and says their sizes; it
        takes longer than the rest.

    Raises
    ------
    SourceError
        When the file cannot be opened.
    ReadingError
        When it shows no plan.
    """
    return read_file(Path(path), page=page, known=known, lettering=lettering).plan


def read_file(
    path: Path, *, page: int = 1, known: Known | None = None, lettering: bool = True
) -> ReadPlan:
    """Do the same and keep the picture."""
    return _read(content_of(path), path.name, page, known, lettering)


def read_upload(data: bytes, name: str, *, page: int = 1) -> ReadPlan:
    """Do the same with a file's content."""
    return _read(data, name, page, None, True)


def _read(data: bytes, name: str, page: int, known: Known | None, lettering: bool) -> ReadPlan:
    drawn = drawing_plan(data, name)
    if drawn is not None:
        return ReadPlan(plan=drawn, pixels=None, dpi=None)
    picture = open_bytes(data, name, page)
    plan = vector_plan(data, picture) or read(picture).plan
    votes: tuple[Vote, ...] = ()
    labelled = lettered(plan, picture, standard_book().surfaces.uses) if lettering else None
    if labelled is not None:
        plan = labelled.plan
    if known is not None:
        plan = scaled_by(plan, _at_resolution(known, picture))
    elif labelled is not None:
        found = scaled(labelled, picture)
        plan, votes = found.plan, found.votes
    else:
        plan = _scaled_by_the_file(plan, picture)
    return ReadPlan(plan=plan, pixels=picture.pixels, dpi=picture.dpi, votes=votes)


def _at_resolution(known: Known, picture: Picture) -> Known:
    """Return what is known, a drawing scale with the picture's resolution where none was said."""
    if isinstance(known, DrawnAt) and known.dpi is None:
        return DrawnAt(drawing_scale=known.drawing_scale, dpi=picture.dpi)
    return known


def _scaled_by_the_file(plan: Plan, picture: Picture) -> Plan:
    for text in stated_scales(picture):
        try:
            return scaled_by(plan, DrawnAt(drawing_scale=drawing_scale(text), dpi=picture.dpi))
        except EstimatorError:
            continue
    return scaled_by_doors(plan)
