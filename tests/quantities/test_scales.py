import pytest

from estimator.errors import QuantityError
from estimator.quantities import DrawingScale, drawing_scale, sheet_sides

# US architectural scales as drafting standards tabulate them: 12 over the inches to a foot.
ARCHITECTURAL = {
    "3": 4,
    "1 1/2": 8,
    "1": 12,
    "3/4": 16,
    "1/2": 24,
    "3/8": 32,
    "1/4": 48,
    "3/16": 64,
    "1/8": 96,
    "3/32": 128,
    "1/16": 192,
}
# ISO 5455:1979, clause 5: reductions and full size.
ISO = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000]


@pytest.mark.parametrize(("inches", "ratio"), ARCHITECTURAL.items())
@pytest.mark.parametrize(
    "spelling", ['{}" = 1\'-0"', "{}″=1′-0″", "{} in = 1 ft", "Scale: {}\" = 1'", "{} inch to 1 ft"]
)
def test_every_architectural_scale_is_read(inches, ratio, spelling):
    assert drawing_scale(spelling.format(inches)).ratio == ratio


@pytest.mark.parametrize("ratio", ISO)
@pytest.mark.parametrize("spelling", ["1:{}", "1/{}", "1 : {}", "SCALE 1:{}", "scale = 1:{}."])
def test_every_scale_of_iso_5455_is_read(ratio, spelling):
    assert drawing_scale(spelling.format(ratio)).ratio == ratio


@pytest.mark.parametrize("ratio", [2, 5, 10, 20, 50])
def test_enlargements_of_iso_5455_are_read(ratio):
    assert drawing_scale(f"{ratio}:1").ratio == pytest.approx(1 / ratio)


def test_an_engineering_scale_is_read():
    assert drawing_scale("1 in = 20 ft").ratio == 240  # 20 feet of 12 inches


def test_a_metric_pair_is_read():
    assert drawing_scale("2 cm = 1 m").ratio == 50


@pytest.mark.parametrize(
    "text", ["scale 1:100 @ A3", "1:100 at A3", "A3 1:100", "1:100 (A3)", "1 : 100 on a3"]
)
def test_the_sheet_it_holds_for_is_read(text):
    assert drawing_scale(text) == DrawingScale(ratio=100.0, sheet="A3")


@pytest.mark.parametrize(
    "text",
    ["", "abc", "50", "0:50", "1:0", "1:1e9", "1/4 = 1 ft", "1:-50", "a = b", "1:" + "9" * 99],
)
def test_what_is_no_scale_is_refused(text):
    with pytest.raises(QuantityError):
        drawing_scale(text)


def test_sheets_have_the_sides_of_iso_216():
    assert sheet_sides("A4") == (0.210, 0.297)
    assert sheet_sides("a3") == (0.297, 0.420)
    assert sheet_sides("A1") == (0.594, 0.841)
    assert sheet_sides("A0") == (0.841, 1.189)


def test_us_sheets_are_in_inches():
    assert sheet_sides("Arch D") == pytest.approx((24 * 0.0254, 36 * 0.0254))
    assert sheet_sides("Letter") == pytest.approx((8.5 * 0.0254, 11 * 0.0254))


def test_an_unknown_sheet_is_refused():
    with pytest.raises(QuantityError, match="no sheet"):
        sheet_sides("B9")
