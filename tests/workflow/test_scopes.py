import pytest

from estimator.errors import QuantityError
from estimator.surfaces.scope import NOTHING, PARTS, Scope
from estimator.workflow.scopes import scope_of


def test_a_scope_covers_what_is_listed_and_nothing_else():
    assert scope_of("Floors, walls up to 1.5 m ,touch points") == Scope(
        walls_to=1.5, doors=False, reveals=False, furniture=False
    )
    everything = scope_of(", ".join(PARTS.values()))
    assert all(getattr(everything, part) for part in PARTS)
    assert not any(getattr(NOTHING, part) for part in PARTS)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("floors, roofs", "“roofs”: it is no surface; choose among floors, walls"),
        (" , ", "the option: it covers nothing"),
        ("walls to 2", "has no unit"),
    ],
)
def test_what_is_no_scope_is_refused(words, says):
    with pytest.raises(QuantityError, match=says):
        scope_of(words)
