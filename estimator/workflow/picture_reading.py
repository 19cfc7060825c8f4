"""Read the plans of one picture; what fails after the rooms were found is left out and said."""

from contextlib import suppress

from attrs import evolve, frozen

from estimator.errors import EstimatorError, ReadingError
from estimator.intake.drawings.vector_page import vector_plan
from estimator.intake.storeys import in_storeys
from estimator.lettering.captions import by_storeys
from estimator.lettering.consensus import Vote
from estimator.lettering.lettered import Lettered, lettered, scaled
from estimator.lettering.orientation import Page, flat_page, upright_page
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.quantities.scales import drawing_scale
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.reading.scale import stated_scales
from estimator.workflow.firm_book import usable_book
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
    failed: list[str] = []
    page = _page(_rooms(data, picture), picture, failed, lettering=lettering)
    found = _lettered(page, failed)
    reading = PictureReading(plan=found.plan if found else in_storeys(page.plan, ()))
    if not unsized:
        reading = _sized(reading.plan, page.picture, found, failed)
    plan = page.in_given(reading.plan)
    doubts = tuple(Doubt(aspect=Aspect.OTHER, says=says, confidence=0.5) for says in failed)
    return evolve(reading, plan=evolve(plan, doubts=doubts + plan.doubts))


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


def _page(plan: Plan, picture: Picture, failed: list[str], *, lettering: bool) -> Page:
    """Return the page flat and upright with its lines; flat alone where they cannot be read."""
    if lettering:
        try:
            return upright_page(plan, picture)
        except Exception:  # the rooms are worth keeping whatever goes wrong after them
            failed.append(_UNLETTERED)
    return flat_page(plan, picture)


def _lettered(page: Page, failed: list[str]) -> Lettered | None:
    """Return the plan with its lettering, in storeys; None without lines, or said as failed."""
    if page.lines is None:
        return None
    try:
        uses = usable_book()[0].surfaces.uses
        return by_storeys(lettered(page.plan, page.picture, uses, page.lines))
    except Exception:  # as above
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
