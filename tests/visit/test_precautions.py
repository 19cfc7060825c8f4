import pytest

from estimator.visit.precautions import Precaution, called_for


def precaution(slug, **where):
    return Precaution(
        slug=slug, mark="X", says="cover it", source="invented", as_of="2026", **where
    )


@pytest.mark.parametrize(
    ("where", "wanted"),
    [
        ({"uses": ("*",)}, True),
        ({"uses": ("kitchen",)}, True),
        ({"uses": ("office",)}, False),
        ({"kinds": ("sofa",)}, True),
        ({"kinds": ("desk",)}, False),
        ({"uses": ("*",), "above": 0.5}, True),
        ({"uses": ("*",), "above": 1.0}, False),
    ],
)
def test_a_room_calls_for_precautions_by_use_furniture_and_strength(where, wanted):
    found = called_for([precaution("it", **where)], "kitchen", ["sofa", "floor"], 1.0)

    assert bool(found) is wanted


def test_a_timetable_names_the_rooms_to_look_in(work, visit):
    fabrics = precaution("fabrics", kinds=("sofa",))
    unused = precaution("unused", uses=("garage",))

    timetable = visit(work("a", holds=("sofa",)), work("b"), precautions=[fabrics, unused])

    assert timetable.precautions == ((fabrics, ("a",)),)
