from collections.abc import Callable
from pathlib import Path

import pytest

from estimator.batch.basis import Basis
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import usual_job


@pytest.fixture(scope="session")
def basis() -> Basis:
    """The packaged book and the job it suggests."""
    book = standard_book()
    return Basis(book=book, job=usual_job(book))


@pytest.fixture
def plans(tmp_path: Path) -> Callable[[int], Path]:
    """Make a folder of so many sites, each typed and unlike the others."""

    def made(count: int) -> Path:
        folder = tmp_path / "plans"
        folder.mkdir()
        for at in range(1, count + 1):
            (folder / f"site-{at:02}.txt").write_text(f"office {at + 2} x 4 m, hall 6 x 2 m")
        return folder

    return made
