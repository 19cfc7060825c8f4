import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.documents.lettering import MISSING, legible, plain, shortened, width


@pytest.mark.parametrize("text", ["Küche 12 m²", "Κουζίνα", "Кухня", "½ × 3′ – 5 €", "5 m³ ☐"])
def test_latin_greek_cyrillic_and_measures_are_written_as_they_are(text):
    assert legible(text) == text


def test_what_no_face_has_becomes_one_plain_mark():
    assert legible("厨房 A") == "厨房 A"
    assert legible("रसोई A") == f"{MISSING} A"


@given(st.text())
def test_any_text_becomes_one_line_that_can_be_measured_and_encoded(text):
    line = legible(text)

    assert line == " ".join(line.split())
    assert width(line, 10.0) >= 0
    assert plain(text).encode("utf-8").decode("utf-8") == plain(text)


@given(st.text(max_size=60), st.floats(10.0, 200.0))
def test_shortened_text_fits(text, most):
    assert width(shortened(legible(text), most, 8.0), 8.0) <= most
