"""Read pictures, pages of documents and drawings into one plan; what shows no plan is left out."""

from collections.abc import Sequence
from pathlib import Path, PurePath

from attrs import evolve, frozen

from estimator.errors import EstimatorError, NoClosedRoom, SourceError
from estimator.intake.pictures import content_of, open_bytes, page_count_of
from estimator.intake.sniffing import drawing_kind
from estimator.intake.storey_names import storey_name
from estimator.plan.edits import stacked
from estimator.plan.plan import Plan
from estimator.workflow.drawings import drawing_plan
from estimator.workflow.left_out import LeftOut, doubts_of, refusal
from estimator.workflow.pages import File, Page, told_apart
from estimator.workflow.picture_reading import REMEDY, read_picture
from estimator.workflow.repeats import doubts_of_repeats
from estimator.workflow.scaling import DrawnAt, Known, KnownTotal
from estimator.workflow.sheet_scales import sized, with_shared_scales

MOST_PAGES = 60
"""Pages of a document that are looked at."""


@frozen(kw_only=True, eq=False)
class ReadPlan:
    """A plan with the pages it was read from; none for a drawing that is geometry."""

    plan: Plan
    pages: tuple[Page, ...] = ()


def read_plan(
    *paths: str | Path, page: int | None = None, known: Known | None = None, lettering: bool = True
) -> Plan:
    """Return the plan read from pictures, pages of documents, a DXF or an IFC.

    Several files are the storeys of one plan, as are the pages of a file that show plans, and
    plans that stand beside each other on a page. A DXF and an IFC have their sizes in them. The
    scale of a picture follows from what is known; or else from what is printed on it; or else from
    a guess by its doors, said to be one. Without any of these the rooms are in proportion.

    Parameters
    ----------
    page
        The only page of each file to read, from 1.
    known
        A length or an area of the first plan that is found; a drawing scale of all of them.
    lettering
        Whether to read the lettering of a picture, which names the rooms and says their sizes; it
        takes longer than the rest.

    Raises
    ------
    SourceError
        When a file cannot be opened.
    ReadingError
        When nothing shows a plan.
    """
    return read_paths(
        [Path(path) for path in paths], page=page, known=known, lettering=lettering
    ).plan


def read_paths(
    paths: Sequence[Path],
    *,
    page: int | None = None,
    known: Known | None = None,
    lettering: bool = True,
) -> ReadPlan:
    """Do the same and keep the pages."""
    files = [File(name=path.name, content=content_of(path)) for path in paths]
    return read_files(files, page=page, known=known, lettering=lettering)


def read_files(
    files: Sequence[File],
    *,
    page: int | None = None,
    known: Known | None = None,
    lettering: bool = True,
) -> ReadPlan:
    """Do the same with the content of files."""
    parts, left = _gathered(told_apart(files), page, known, lettering)
    if not parts:
        raise refusal(left)
    pages = tuple(page for part in parts for page in part.pages)
    plan = stacked([part.plan for part in parts])
    if known is not None:
        plan = sized(plan, known, pages)
    plan = _numbered(with_shared_scales(plan))
    doubts = (*doubts_of(left), *doubts_of_repeats(plan), *plan.doubts)
    return ReadPlan(plan=evolve(plan, doubts=doubts), pages=pages)


def _gathered(
    files: Sequence[File], page: int | None, known: Known | None, lettering: bool
) -> tuple[list[ReadPlan], list[LeftOut]]:
    """Return the plan of each page that shows one, and what is left out.

    Frames of covers and tables look like rooms without doors; they count only where nothing else
    is found.
    """
    parts: list[ReadPlan] = []
    left: list[LeftOut] = []
    doorless: list[tuple[ReadPlan, LeftOut]] = []
    for file in files:
        numbers = _numbers(file, page, left)
        for number in numbers:
            # A length is known of one picture; a total and a drawing scale of them all.
            is_known = known is not None and (not parts or isinstance(known, DrawnAt | KnownTotal))
            label = f"{number}" if len(numbers) > 1 else ""
            try:
                found = _read(file, number, lettering=lettering, unsized=is_known)
            except EstimatorError as error:
                left.append(LeftOut(file=file.name, page=label, error=error))
                continue
            if len(files) > 1:
                found = _called_after_file(found, file)
            if number is None or any(room.openings for room in found.plan.rooms):
                parts.append(found)
            else:
                no_plan = NoClosedRoom(file.name, "no door is drawn on it", REMEDY)
                doorless.append((found, LeftOut(file=file.name, page=label, error=no_plan)))
    if not parts:
        return [found for found, _ in doorless], left
    return parts, [*left, *(no_plan for _, no_plan in doorless)]


def _numbers(file: File, page: int | None, left: list[LeftOut]) -> Sequence[int | None]:
    """Return the pages of a file to read; None for a drawing, which has none."""
    if drawing_kind(file.content) is not None:
        return [None]
    if page is not None:
        return [page]
    try:
        count = page_count_of(file.content, file.name)
    except EstimatorError as error:
        left.append(LeftOut(file=file.name, page="", error=error))
        return []
    if count > MOST_PAGES:
        beyond = SourceError(
            file.name,
            f"only the first {MOST_PAGES} pages are looked at",
            "choose one of the others by its number",
        )
        left.append(LeftOut(file=file.name, page=f"{MOST_PAGES + 1}–{count}", error=beyond))
    return range(1, min(count, MOST_PAGES) + 1)


def _read(file: File, number: int | None, *, lettering: bool, unsized: bool) -> ReadPlan:
    if number is None:
        drawn = drawing_plan(file.content, file.name)
        assert drawn is not None
        return ReadPlan(plan=drawn)
    picture = open_bytes(file.content, file.name, number)
    found = read_picture(file.content, picture, lettering=lettering, unsized=unsized)
    page = Page(file=file, number=number, dpi=picture.dpi, votes=found.votes)
    return ReadPlan(plan=found.plan, pages=(page,))


def _called_after_file(found: ReadPlan, file: File) -> ReadPlan:
    """Return a plan of one storey called as its file says, where its lettering does not."""
    storeys = found.plan.storeys
    name = storey_name(PurePath(file.name).stem)
    if len(storeys) > 1 or storeys[0].name or name is None:
        return found
    return evolve(found, plan=evolve(found.plan, storeys=(evolve(storeys[0], name=name.text),)))


def _numbered(plan: Plan) -> Plan:
    """Return a plan of several storeys with each called something."""
    if len(plan.storeys) == 1:
        return plan
    storeys = (
        evolve(storey, name=storey.name or f"Storey {at}")
        for at, storey in enumerate(plan.storeys, start=1)
    )
    return evolve(plan, storeys=tuple(storeys))
