import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.quantities import Units
from estimator.quantities.in_units import in_units


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("moved by 3 cm.", 'moved by 1".'),
        ("assumed to be 2.44 m high", "assumed to be 8' 0\" high"),
        ("overlapped by 1,317.9 m²; the rest", "overlapped by 14,186 ft²; the rest"),
        ("on a sheet of 420 × 297 mm", 'on a sheet of 1\' 4½" × 11½"'),
        ("Kitchen, 3.2 × 4 m, and 2 m", "Kitchen, 10' 6\" × 13' 1½\", and 6' 6½\""),
        ("about 2.5 L of it", "about 0.66 US gal of it"),
    ],
)
def test_lengths_areas_and_volumes_are_said_in_us_units(metric, us):
    """1 ft = 0.3048 m, 1 US gal = 231 in³, exact (NIST Handbook 44, appendix C)."""
    assert in_units(metric, Units.US) == us
    assert in_units(metric, Units.METRIC) == metric


@pytest.mark.parametrize(
    "said",
    [
        "at 1:50 on page 3",
        "within 5% and 1000 ppm for 1 min",
        "droplets of 40 µm",
        "45 m²/h, 3 m/s and 12 km",
        "Room 2 may be a shaft",
        "12' 6\" wide",
        "3 kitchens, 4 mugs",
    ],
)
def test_what_is_no_length_area_or_volume_stays(said):
    assert in_units(said, Units.US) == said


def test_names_stay_whatever_they_hold():
    said = "Store 5 m was assumed to be 2.4 m high; Store 5 m² was not."
    told = in_units(said, Units.US, ["Store 5 m", "Store 5 m²", "2"])
    assert told == "Store 5 m was assumed to be 7' 10½\" high; Store 5 m² was not."


@given(st.text(), st.lists(st.text()))
def test_any_text_is_taken(said, names):
    assert in_units(said, Units.METRIC, names) == said
    assert isinstance(in_units(said, Units.US, names), str)
