from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import QuantityError
from estimator.quantities import droplets, label_uses


def test_uses_are_read_one_on_a_line():
    uses = label_uses("Hard surfaces: 1000 ppm for 10 min\n\nToys: 50-200 ppm, 90 s\n0.5 % for 1 h")

    assert [(use.label, use.least, use.most, use.contact_time) for use in uses] == [
        ("Hard surfaces", 1.0, 1.0, 600.0),
        ("Toys", 0.05, 0.2, 90.0),
        ("use on the label", 5.0, 5.0, 3600.0),
    ]


def test_nothing_written_is_no_use():
    assert label_uses(" \n") == ()


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("Hard surfaces: 1000 ppm", "lacks its strength or contact time; write it like"),
        ("1000 for 10 min", "it has no unit"),
        ("1000 ppm for 10", "it has no unit"),
        ("1200 to 1000 ppm for 10 min", "wrong way round"),
        ("-5 ppm for 10 min", "it is negative"),
        ("0 ppm for 10 min", "above 0 ppm"),
    ],
)
def test_a_use_that_cannot_be_read_is_refused_in_a_sentence(written, says):
    with pytest.raises(QuantityError, match=says):
        label_uses(written)


@pytest.mark.parametrize(
    ("written", "sizes"),
    [("40 µm", (40e-6, None)), ("40 to 80 µm", (40e-6, 80e-6)), ("40–80 micron", (40e-6, 80e-6))],
)
def test_droplets_are_read_with_one_end_or_two(written, sizes):
    assert droplets(written) == pytest.approx(sizes)


@pytest.mark.parametrize("written", ["40 mm", "80 to 40 µm", "0 µm", "40", "fine"])
def test_droplets_of_no_mist_are_refused(written):
    with pytest.raises(QuantityError):
        droplets(written)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text):
    for read in (label_uses, droplets):
        found = ()
        with suppress(QuantityError):
            found = read(text)
        assert isinstance(found, tuple)
