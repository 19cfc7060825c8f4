import pytest

from estimator.lettering.lengths import Way
from estimator.lettering.sizes import agreeing, areas, sizes

FT, IN = 0.3048, 0.0254  # exactly (NIST SP 811, appendix B)


@pytest.mark.parametrize(
    ("text", "width", "depth"),
    [
        ("12'-6\" x 10'0\"", 12.5 * FT, 10 * FT),
        ("12′-6″ × 10′-0″", 12.5 * FT, 10 * FT),
        ("12'6 x 10", 12.5 * FT, 10 * FT),
        ("16'3 x 11'5", 16.25 * FT, 11 * FT + 5 * IN),
        ("15.5' X 18'", 15.5 * FT, 18 * FT),
        ("9'X11", 9 * FT, 11 * FT),
        ("3.45m x 4.20m", 3.45, 4.2),
        ("3.45 × 4.20 m", 3.45, 4.2),
        ("(4.0m x 3.5m)", 4.0, 3.5),
        ("4.23× 3.08M", 4.23, 3.08),
        ("3,45 m x 4,20 m", 3.45, 4.2),
        ("345 x 420", 3.45, 4.2),
        ("345 × 420 cm", 3.45, 4.2),
        ("3450 x 4200", 3.45, 4.2),
        ("1.80 m  3.00 m", 1.8, 3.0),  # the sign lost
        ("5 89× 4 57m", 5.89, 4.57),  # the points lost
        ("139'× 7", 13.75 * FT, 7 * FT),  # a prime lost
        ("4.20 m × 4.00 m .", 4.2, 4.0),
        ("3.45 m par 4.20 m", 3.45, 4.2),
        ("3.45 x 4.20 x 2.40 m", 3.45, 4.2),  # with its height
        ("3,45 x 4,20", 3.45, 4.2),
        ("3450 x 4200 mm", 3.45, 4.2),
        ("3m45 x 4m20", 3.45, 4.2),
        ("3.45 mts x 4.20 mts", 3.45, 4.2),
        ("12ft 6in x 10ft", 12.5 * FT, 10 * FT),
        ("12'-6'' x 10'-0''", 12.5 * FT, 10 * FT),
        ("4.2 x 3.4 (max)", 4.2, 3.4),
        ("4.20m (max) x 3.45m", 4.2, 3.45),
        ("14'2 x 11'3 into bay", 14 * FT + 2 * IN, 11.25 * FT),
        ("14'2\" into bay x 11'3\" max", 14 * FT + 2 * IN, 11.25 * FT),
        ("6.2m narrowing to 5.1m x 3.1m", 6.2, 3.1),
        ("3.45 m (W) x 4.20 m (L)", 3.45, 4.2),
        ("L 3.45 x B 4.20", 3.45, 4.2),
        ("923 x 5627 mm", 0.923, 5.627),
        ("15ft lin x 6ft 5in", 15 * FT + IN, 6 * FT + 5 * IN),
        ("10'11\"-x4'6\"", 10 * FT + 11 * IN, 4.5 * FT),
        ("15'7\"6'2\"", 15 * FT + 7 * IN, 6 * FT + 2 * IN),  # the sign lost
        ("6.20m (20'4\") x 3.10m (10'2\")", 6.2, 3.1),  # each side in both
    ],
)
def test_sizes_in_every_usual_spelling(text, width, depth):
    found = sizes(text).likeliest

    assert (found.width, found.depth) == pytest.approx((width, depth), abs=1e-3)


@pytest.mark.parametrize(
    "text", ["Bedroom 2", "1:50", "4 of 7", "12 m", "Sheet 1 x", "14.2 m²", "0 x 0", "2 x 90 m"]
)
def test_what_is_no_size_is_none(text):
    assert sizes(text) is None


def test_feet_without_primes_are_settled_by_the_same_size_in_metres():
    bare, metric = sizes("171×156"), sizes("5.21 × 4.73")
    assert bare.likeliest.way is Way.CENTIMETRES

    both = agreeing(bare, metric)

    assert (both.likeliest.width, both.likeliest.depth) == (5.21, 4.73)
    assert both.likeliest.likelihood > 0.8


def test_two_rooms_sizes_do_not_agree():
    assert agreeing(sizes("12'6 x 10'0"), sizes("4.96 × 3.47")) is None


@pytest.mark.parametrize(
    ("text", "square_metres"),
    [
        ("14.2 m²", 14.2),
        ("14,2 m2", 14.2),
        ("13.6m²", 13.6),
        ("153 sq ft", 153 * FT**2),
        ("153 SQ.FT.", 153 * FT**2),
        ("1,216 sq ft", 1216 * FT**2),
        ("770 sq ft / 71 sq m", 71.0),
        ("1065 SQ.FT. (98.9 SQ.M.)", 98.9),
        ("84,5 qm", 84.5),
        ("Wohnfläche 84,5 m²", 84.5),
        ("113 m / 1216 sq ft", 1216 * FT**2),
        ("153 SF", 153 * FT**2),
        ("153 S.F.", 153 * FT**2),
        ("50 sgft", 50 * FT**2),
        ("153 ft²", 153 * FT**2),
        ("14.2 m?", 14.2),  # the sign misread
        ("1.234,5 m²", 1234.5),
        ("1 234,50 m²", 1234.5),
        ("Büro 2 120 m²", 120),
    ],
)
def test_areas_in_every_usual_spelling(text, square_metres):
    assert areas(text)[0] == pytest.approx(square_metres)


@pytest.mark.parametrize(
    "text", ["12 m", "3.45 x 4.20 m", "7ft 2in x 4ft 9in", "3.45 m 2.10 m", "Area", "0 sq m"]
)
def test_what_is_no_area_is_none(text):
    assert areas(text) == ()
