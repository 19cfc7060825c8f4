"""Fifty pictures that are no plans, most drawn here, some free photographs: none has rooms."""

import pytest
from no_plans.diagrams import DIAGRAMS
from no_plans.papers import PAPERS
from no_plans.photographs import PHOTOGRAPHS
from no_plans.things import THINGS

from estimator.errors import ReadingError
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.reading.refusals import REMEDY

NO_PLANS = PHOTOGRAPHS | PAPERS | DIAGRAMS | THINGS


def test_there_are_fifty_and_all_are_small():
    assert len(NO_PLANS) == 50
    assert all(max(draw().shape) <= 704 for draw in NO_PLANS.values())


@pytest.mark.parametrize("name", NO_PLANS)
def test_a_picture_that_is_no_plan_is_refused_in_one_sentence(name):
    with pytest.raises(ReadingError) as caught:
        read(Picture(pixels=NO_PLANS[name](), file="picture.png"))
    assert str(caught.value).startswith("picture.png: ")
    assert str(caught.value).endswith(f"{REMEDY}.")
