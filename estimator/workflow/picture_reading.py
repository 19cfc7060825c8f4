"""Read the plans of one picture; what fails after the rooms were found is left out and said."""

from contextlib import suppress

from attrs import evolve, frozen

from estimator.errors import EstimatorError, ReadingError
from estimator.intake.drawings.vector_page import vector_plan
from estimator.intake.storeys import in_storeys
from estimator.lettering.captions import by_storeys
from estimator.lettering.consensus import Vote
from estimator.lettering.lettered import Lettered, lettered, scaled
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.flat import in_picture
from estimator.plan.flat import laid_flat as flat_plan
from estimator.plan.plan import Plan
from estimator.quantities.scales import drawing_scale
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.reading.scale import stated_scales
from estimator.reading.sheet.flattening import laid_flat
from estimator.workflow.measuring import standard_book
from estimator.workflow.scaling import DrawnAt, scaled_by, scaled_by_doors

REMEDY = "send it in another format, or type the rooms and their sizes"

_UNLETTERED = (
    "Reading its lettering failed, so room names and printed sizes are missing: name the rooms and "
    "give one known length."
)
_UNSCALED = (
    "Finding the scale by its printed figures failed, so they are left out: give one known length."
)


@frozen(kw_only=True)
class PictureReading:
    """The plan of one picture, and what each printed figure says of its scale."""

    plan: Plan
    votes: tuple[Vote, ...] = ()


def read_picture(
    data: bytes, picture: Picture, *, lettering: bool, unsized: bool = False
) -> PictureReading:
    """Return the plan that a picture shows, one or several storeys.

    Parameters
    ----------
    data
        The file the picture was opened from, whose paths are read where it is a PDF.
    unsized
        Whether to leave it without a scale, when somebody knows one.

    Raises
    ------
    ReadingError
        When it shows no plan.
    """
    plan = _rooms(data, picture)
    sheet = plan.storeys[0].sheet
    if sheet is None:
        return _read_flat(plan, picture, lettering=lettering, unsized=unsized)
    flat = laid_flat(picture, sheet)
    reading = _read_flat(flat_plan(plan), flat, lettering=lettering, unsized=unsized)
    return evolve(reading, plan=in_picture(reading.plan, sheet, picture.source))


def _read_flat(plan: Plan, picture: Picture, *, lettering: bool, unsized: bool) -> PictureReading:
    """Return the rooms of a flat picture named and sized by its lettering, in storeys."""
    failed: list[str] = []
    reading = PictureReading(plan=plan)
    found = _lettered(reading.plan, picture, failed) if lettering else None
    if found is not None:
        reading = PictureReading(plan=found.plan)
    else:
        reading = PictureReading(plan=in_storeys(reading.plan, ()))
    if not unsized:
        reading = _sized(reading.plan, picture, found, failed)
    doubts = tuple(Doubt(aspect=Aspect.OTHER, says=says, confidence=0.5) for says in failed)
    return evolve(reading, plan=evolve(reading.plan, doubts=doubts + reading.plan.doubts))


def _rooms(data: bytes, picture: Picture) -> Plan:
    """Return the rooms by the paths of a page, or else by its pixels."""
    # Whatever strange files make the libraries raise must not reach the user.
    with suppress(Exception):
        if drawn := vector_plan(data, picture):
            return drawn
    try:
        return read(picture).plan
    except EstimatorError:
        raise
    except Exception as error:
        raise ReadingError(picture.file, "its rooms could not be looked for", REMEDY) from error


def _lettered(plan: Plan, picture: Picture, failed: list[str]) -> Lettered | None:
    """Return the plan with its lettering, in storeys; None, said as failed, without it."""
    try:
        return by_storeys(lettered(plan, picture, standard_book().surfaces.uses))
    except Exception:  # the rooms are worth keeping whatever goes wrong after them
        failed.append(_UNLETTERED)
        return None


def _sized(
    plan: Plan, picture: Picture, found: Lettered | None, failed: list[str]
) -> PictureReading:
    """Return the plan sized by what is printed on it, by the text of its file, or by its doors."""
    if found is not None:
        try:
            agreed = scaled(found, picture)
            return PictureReading(plan=agreed.plan, votes=agreed.votes)
        except Exception:  # as above
            failed.append(_UNSCALED)
    return PictureReading(plan=_scaled_by_the_file(plan, picture))


def _scaled_by_the_file(plan: Plan, picture: Picture) -> Plan:
    for text in stated_scales(picture):
        try:
            return scaled_by(plan, DrawnAt(drawing_scale=drawing_scale(text), dpi=picture.dpi))
        except EstimatorError:
            continue
    return scaled_by_doors(plan)
