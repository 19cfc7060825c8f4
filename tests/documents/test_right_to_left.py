import pypdfium2
import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from estimator.documents.lettering import legible
from estimator.documents.quote_pdf import quote_pdf
from estimator.documents.right_to_left import drawn
from estimator.quantities import Units


@pytest.mark.parametrize(
    ("written", "as_drawn"),
    [
        # The Unicode Standard, table 9-8 (Arabic glyph types), by the names of the letters.
        ("\u0628", "\ufe8f"),  # beh alone: isolated
        ("\u0628\u0628\u0628", "\ufe90\ufe92\ufe91"),  # final, medial, initial from the left
        ("\u062f\u0628", "\ufe8f\ufea9"),  # dal never joins what follows
        ("\u0644\u0627", "\ufefb"),  # lam with alef is one glyph
        ("\u0628\u0644\u0627", "\ufefc\ufe91"),  # and joins the letter before it
    ],
)
def test_arabic_letters_take_their_forms(written, as_drawn):
    assert drawn(written) == as_drawn


@pytest.mark.parametrize(
    ("written", "as_drawn"),
    [
        ("\u05d0\u05d1\u05d2", "\u05d2\u05d1\u05d0"),
        ("\u05d0\u05d1 12.5 \u05d2", "\u05d2 12.5 \u05d1\u05d0"),  # numbers are not turned
        ("(\u05d0)", "(\u05d0)"),  # brackets are mirrored
        ("Room \u05d0\u05d1 2", "Room \u05d1\u05d0 2"),
        ("Kitchen 2", "Kitchen 2"),
        ("\u05d0\u05d1 厨房 \u05d2", "\u05d1\u05d0 厨房 \u05d2"),  # a run ends at other letters
    ],
)
def test_runs_are_turned_round_as_the_bidirectional_algorithm_does(written, as_drawn):
    assert drawn(written) == as_drawn


@given(st.text(alphabet="ab 12(\u05d0\u05d1\u0628\u0644\u0627\u062f"))
def test_nothing_is_lost_and_all_of_it_can_be_written(text):
    line = drawn(text)

    assert legible(line) == legible(legible(line))
    assert "?" not in legible(line)
    assert line.count("1") == text.count("1")
    assert line.count("\u05d0") == text.count("\u05d0")


def test_names_in_hebrew_and_arabic_stand_on_the_quote(plan, quote):
    named = evolve(quote, title="\u05de\u05d8\u05d1\u05d7 \u0645\u0637\u0628\u062e")
    document = pypdfium2.PdfDocument(quote_pdf(plan, named, Units.METRIC))
    text = document[0].get_textpage().get_text_range()
    document.close()

    assert "?" not in text
    assert "\u05d7" in text
