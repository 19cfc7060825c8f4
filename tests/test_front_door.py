import pickle
import subprocess
import sys

import pytest

import estimator
from estimator import errors


def test_importing_the_estimator_loads_nothing_heavy():
    heavy = {"cv2", "streamlit", "sqlalchemy", "pandas", "reportlab", "pint", "shapely"}
    script = "import sys, estimator; print(*sys.modules)"
    loaded = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    ).stdout.split()
    assert heavy.isdisjoint(loaded)


def test_the_four_verbs_are_there_and_nothing_else():
    assert estimator.__all__ == sorted(estimator.__all__)
    assert all(callable(getattr(estimator, verb)) for verb in estimator.__all__)
    with pytest.raises(AttributeError, match="no attribute 'guess'"):
        _ = estimator.guess


def error_classes():
    found = [errors.EstimatorError]
    for kind in found:
        found += kind.__subclasses__()
    return found


@pytest.mark.parametrize("kind", error_classes(), ids=lambda kind: kind.__name__)
def test_every_error_is_one_sentence_and_survives_pickling(kind):
    error = kind("plan.png", "it shows nothing", "send another")
    again = pickle.loads(pickle.dumps(error))
    assert str(again) == "plan.png: it shows nothing; send another."
    assert (again.where, again.problem, again.remedy) == (
        "plan.png",
        "it shows nothing",
        "send another",
    )


@pytest.mark.parametrize("kind", error_classes(), ids=lambda kind: kind.__name__)
def test_every_error_stands_in_the_tree_at_the_head_of_its_module(kind):
    assert kind.__name__ in (errors.__doc__ or "")
