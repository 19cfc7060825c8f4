import io

import attrs
import numpy as np
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas

from estimator.errors import EmptyPage, EstimatorError, LockedDocument, SourceError
from estimator.intake.pictures import open_bytes, page_count_of

# One page of a document, drawn in points of 1/72 inch (ISO 32000-1).


def page_of(width=595.0, height=842.0, *, pages=1, draw=True, **options):
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(width, height), invariant=1, **options)
    for number in range(pages):
        if draw:
            canvas.rect(100, 100, 200, 300, stroke=1, fill=0)
            canvas.setFont("Helvetica", 20)
            canvas.drawString(120, 700, f"Kitchen page{number + 1} 1:50")
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


PDF = page_of()


def test_a_page_is_drawn_at_a_resolution_that_makes_stated_scales_work():
    picture = open_bytes(PDF, "plan.pdf")
    assert picture.height_px == 2600
    assert picture.dpi == pytest.approx(2600 / 842 * 72)
    dark = np.argwhere(picture.pixels.min(axis=2)[1000:] < 100)
    span = (dark.max(axis=0) - dark.min(axis=0) + 1) / picture.dpi * 72
    assert span == pytest.approx([301, 201], abs=1)  # the line is one point thick


def test_the_words_of_a_page_have_boxes_around_their_ink():
    picture = open_bytes(PDF, "plan.pdf")
    assert [word.text for word in picture.words] == ["Kitchen", "page1", "1:50"]
    scale = picture.dpi / 72
    first = picture.words[0]
    assert first.left_px == pytest.approx(120 * scale, abs=2 * scale)
    assert first.bottom_px == pytest.approx((842 - 700) * scale, abs=2 * scale)
    assert ink_in(picture, first)
    left_of_it = attrs.evolve(first, left_px=first.left_px - 20, right_px=first.left_px - 3)
    assert not ink_in(picture, left_of_it)


def ink_in(picture, word):
    """Whether there is ink in the box of a word."""
    rows = slice(int(word.top_px), int(word.bottom_px) + 1)
    columns = slice(int(word.left_px), int(word.right_px) + 1)
    return (picture.pixels[rows, columns].min(axis=2) < 200).any()


def test_a_turned_page_is_upright_with_its_words():
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(595, 842))
    canvas.setPageRotation(90)  # the sheet lies 842 wide and 595 high and is shown turned
    canvas.drawString(500, 400, "Kitchen")
    canvas.showPage()
    canvas.save()
    picture = open_bytes(buffer.getvalue(), "plan.pdf")
    assert picture.height_px == 2600
    (word,) = picture.words
    assert word.left_px == pytest.approx(400 * picture.dpi / 72, abs=10)
    assert word.top_px == pytest.approx(500 * picture.dpi / 72, abs=10)
    assert ink_in(picture, word)


def test_each_page_of_a_document_opens():
    data = page_of(pages=3)
    assert page_count_of(data, "plan.pdf") == 3
    assert open_bytes(data, "plan.pdf", page=2).words[1].text == "page2"
    with pytest.raises(SourceError, match="3 pages, and page 4"):
        open_bytes(data, "plan.pdf", page=4)
    with pytest.raises(SourceError, match="page 0"):
        open_bytes(data, "plan.pdf", page=0)


def test_a_document_with_a_password_is_locked():
    data = page_of(encrypt=StandardEncryption("secret", ownerPassword="other"))
    with pytest.raises(LockedDocument, match="password"):
        open_bytes(data, "plan.pdf")


def test_a_document_anyone_may_read_opens_though_it_is_encrypted():
    data = page_of(encrypt=StandardEncryption("", ownerPassword="other"))
    assert open_bytes(data, "plan.pdf").words[0].text == "Kitchen"


def test_a_damaged_document_is_refused():
    for data in (b"%PDF-1.7\n", PDF[:300], b"%PDF-1.4\n" + bytes(1000)):
        with pytest.raises(SourceError, match="damaged or cut off"):
            open_bytes(data, "plan.pdf")


def test_a_document_without_a_page_is_said_to_be_empty():
    buffer = io.BytesIO()
    document = pypdfium2.PdfDocument.new()
    document.save(buffer)
    document.close()
    with pytest.raises(EmptyPage, match="no page"):
        open_bytes(buffer.getvalue(), "plan.pdf")


def test_a_blank_page_is_said_to_be_blank():
    with pytest.raises(EmptyPage, match="page 1 is blank"):
        open_bytes(page_of(draw=False), "plan.pdf")


@pytest.mark.parametrize(("width", "height"), [(320, 320), (14_400, 14_400), (2384, 3370)])
def test_a_page_of_any_size_has_the_same_long_side(width, height):
    picture = open_bytes(page_of(width, height), "plan.pdf")
    assert max(picture.width_px, picture.height_px) == 2600


@given(st.data())
@settings(max_examples=50)
def test_damaged_bytes_are_read_or_refused_in_a_sentence(data):
    whole = bytearray(PDF)
    for _ in range(data.draw(st.integers(1, 8))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    try:
        picture = open_bytes(bytes(whole), "plan.pdf")
    except EstimatorError:
        return
    assert picture.pixels.dtype == np.uint8
