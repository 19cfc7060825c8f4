from functools import cache

import pytest

from estimator.intake.pictures import open_picture
from estimator.lettering.lettered import lettered, scaled
from estimator.lettering.line import Line
from estimator.lettering.vocabulary import vocabulary
from estimator.reading.read import read
from estimator.workflow.measuring import standard_book
from estimator.workflow.samples import samples


@pytest.fixture(scope="session")
def words():
    return vocabulary(standard_book().surfaces.uses)


@pytest.fixture(scope="session")
def line():
    """A line of lettering 10 pixels high with its middle at a place."""

    def made(text, at=(0.0, 0.0), *, letter=10.0, is_vertical=False, confidence=1.0):
        long, (x, y) = 0.6 * letter * len(text), at
        width, height = (letter, long) if is_vertical else (long, letter)
        return Line(
            text=text,
            box_px=(x - width / 2, y - height / 2, x + width / 2, y + height / 2),
            is_vertical=is_vertical,
            confidence=confidence,
        )

    return made


@pytest.fixture(scope="session")
def read_sample():
    """A sample plan read once a session: its truth, its labels, and its plan with all votes."""

    @cache
    def found(title):
        sample = next(sample for sample in samples() if title in sample.title.lower())
        picture = open_picture(sample.picture)
        named = lettered(read(picture).plan, picture, standard_book().surfaces.uses)
        return sample.truth(), named, scaled(named, picture), picture

    return found
