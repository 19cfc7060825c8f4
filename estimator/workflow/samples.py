"""The sample plans that ship with the estimator."""

from pathlib import Path

from attrs import frozen

from estimator.plan.plan import Plan
from estimator.workflow.files import load_plan
from estimator.workflow.pages import File, Page
from estimator.workflow.places import samples_folder

_TRUTH = ".truth.json"


@frozen(kw_only=True)
class Sample:
    """A picture of a plan, drawn by the estimator's own authors, with its exact truth beside it."""

    title: str
    picture: Path
    truth_file: Path

    @property
    def page(self) -> Page:
        """The picture as a page to read."""
        return Page(file=File(name=self.picture.name, content=self.picture.read_bytes()))

    def truth(self) -> Plan:
        """Return the plan as it was drawn."""
        return load_plan(self.truth_file)


def samples() -> tuple[Sample, ...]:
    """Return all sample plans, by name."""
    folder = samples_folder()
    pictures = {path.stem: path for path in folder.iterdir() if path.suffix != ".json"}
    return tuple(
        Sample(
            title=stem.replace("-", " ").capitalize(),
            picture=pictures[stem],
            truth_file=folder / f"{stem}{_TRUTH}",
        )
        for stem in sorted(pictures)
        if (folder / f"{stem}{_TRUTH}").exists()
    )
