import pytest

from estimator.errors import QuantityError
from estimator.quantities import Units, coverage_film, shown_coverage


@pytest.mark.parametrize(
    # World Health Organization, Vector Control (1997), chapter 9: 40 mL/m² of 8 L cover 200 m²; the
    # rest by arithmetic
    ("written", "millilitres"),
    [
        ("200 m² per 8 L", 40),
        ("25 m²/L", 40),
        ("1019 ft² per US gal", 40),
        ("4075 sq ft/US gal", 10),
        ("10 mL/m²", 10),
        ("100 m2/L", 10),
    ],
)
def test_a_coverage_is_read_as_the_film_it_comes_to(written, millilitres):
    assert 1e6 * coverage_film(written) == pytest.approx(millilitres, rel=1e-3)


@pytest.mark.parametrize(
    ("millilitres", "metric", "us"),
    [
        (10, "100 m²/L", "4,075 ft²/US gal"),
        (25, "40 m²/L", "1,630 ft²/US gal"),
        (40, "25 m²/L", "1,019 ft²/US gal"),
        (50, "20 m²/L", "815 ft²/US gal"),
        (100, "10 m²/L", "407 ft²/US gal"),
    ],
)
def test_a_film_is_shown_as_its_coverage(millilitres, metric, us):  # by arithmetic
    film = millilitres * 1e-6

    assert (shown_coverage(film, Units.METRIC), shown_coverage(film, Units.US)) == (metric, us)


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("4000 ft² per gallon", "say which: US gal or imp gal"),
        ("800", "it has no unit"),
        ("0 m²/L", "it covers nothing"),
        ("0 mL/m²", "it covers nothing"),
        ("-3 m²/L", "it is negative"),
        ("8 L", "is a volume where a coverage was asked for"),
    ],
)
def test_what_is_no_coverage_is_refused_in_a_sentence(written, says):
    with pytest.raises(QuantityError, match=says):
        coverage_film(written)
