from io import BytesIO

import numpy as np
import pypdfium2
import pytest
from attrs import evolve
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from estimator.documents.faces import font_bytes, is_written, runs
from estimator.documents.labels import label
from estimator.documents.lettering import legible, shortened, width
from estimator.documents.overlay import overlay_png
from estimator.documents.paper import Drawing, style, text
from estimator.documents.portfolio_pdf import Site, portfolio_pdf
from estimator.documents.quote_pdf import quote_pdf
from estimator.documents.scene import Anchor, Scene, Words
from estimator.documents.thai import LETTER_OF, formed
from estimator.documents.unwritten import unwritten, words_of
from estimator.documents.worksheet_pdf import worksheet_pdf
from estimator.plan.geometry import rectangle
from estimator.quantities import Units
from estimator.quote.firm import Firm
from estimator.quote.recipient import Recipient

NAMES = {
    "waiting": "候诊室 (Waiting) 一楼",
    "exam": "診察室 1",
    "store": "リネン庫",
    "hall": "복도 및 로비",
    "toilet": "ห้องน้ำผู้ป่วย",
    "kitchen": "ครัว 2",
}
TITLE = "拉克菲尔德诊所 ▪ คลินิก"
FIRM = Firm(name="Oak Street 清洁", address=("라크필드 1",))
RECIPIENT = Recipient(
    client="ラークフィールド株式会社",
    address=("東京都千代田区 1-1", "서울특별시"),
    site="ที่ปรึกษาผู้ใหญ่ ฟื้นฟูป่าไม้ ญี่ปุ่น 😀",
    place=("กรุงเทพฯ",),
    number="Q-7",
    version=2,
)


@pytest.fixture
def abroad(plan, quote):
    """The plan and its quote with names in the letters of four countries."""
    rooms = tuple(evolve(room, name=NAMES[room.id]) for room in plan.rooms)
    scheduled = tuple(evolve(room, name=NAMES[room.room]) for room in quote.schedule.rooms)
    schedule = evolve(quote.schedule, rooms=scheduled)
    return (
        evolve(plan, title=TITLE, rooms=rooms),
        evolve(quote, title=TITLE, schedule=schedule),
    )


def _read(pdf):
    """Return what a file says, without spaces, since names wrap."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        return _joined(*(page.get_textpage().get_text_range() for page in document))
    finally:
        document.close()


def _joined(*texts):
    return "".join("".join(texts).split())


def _boxes(pdf):
    """Return the boxes that the advances of the letters of a page take, in points."""
    page = pypdfium2.PdfDocument(pdf)[0].get_textpage()
    return [page.get_charbox(at, loose=True) for at in range(page.count_chars())]


def _scene_pdf(words):
    written = BytesIO()
    canvas = Canvas(written, pagesize=(400, 100))
    Drawing(Scene(width=400, height=100, marks=(words,))).drawOn(canvas, 0, 0)
    canvas.save()
    return written.getvalue()


def test_the_quote_holds_the_names_it_was_given(abroad):
    read = _read(quote_pdf(*abroad, Units.METRIC, firm=FIRM, recipient=RECIPIENT))

    for name in (
        *NAMES.values(),
        TITLE,
        FIRM.name,
        *FIRM.address,
        RECIPIENT.client,
        *RECIPIENT.address,
        RECIPIENT.site,
        *RECIPIENT.place,
    ):
        assert _joined(name) in read


def test_work_sheet_and_portfolio_hold_the_names_they_were_given(abroad):
    plan, quote = abroad
    sheet = _read(worksheet_pdf(plan, quote, Units.US))
    sites = [Site(plan=plan, quote=quote, recipient=RECIPIENT)] * 2
    folio = _read(portfolio_pdf(sites, Units.METRIC, firm=FIRM, title="连锁 체인 เครือข่าย"))

    assert all(_joined(name) in sheet for name in (*NAMES.values(), TITLE))
    assert all(
        _joined(name) in folio for name in (*NAMES.values(), "连锁 체인 เครือข่าย", RECIPIENT.client)
    )


def test_the_title_of_the_file_is_the_name_of_the_site(abroad):
    document = pypdfium2.PdfDocument(quote_pdf(*abroad, Units.METRIC))

    assert TITLE in document.get_metadata_value("Title")
    document.close()


def test_the_same_names_give_the_same_bytes(abroad):
    assert quote_pdf(*abroad, Units.METRIC) == quote_pdf(*abroad, Units.METRIC)


@pytest.mark.parametrize(
    "encoding",
    [
        "gb2312",  # GB/T 2312-1980, simplified Chinese
        "big5",  # traditional Chinese
        "euc_jp",  # JIS X 0208 and 0212; the second is for scholars
        "euc_kr",  # KS X 1001
        "tis_620",  # TIS 620-2533, Thai
    ],
)
def test_national_character_sets_are_written(encoding):
    letters = set()
    for first in range(0xA1, 0xFF):
        for second in [b"", *(bytes([at]) for at in range(0x40, 0xFF))]:
            try:
                letters.add(bytes([first, *second]).decode(encoding))
            except UnicodeDecodeError:
                continue
    letters = {one for one in letters if len(one) == 1 and one.isalpha()}
    lacking = [one for one in letters if legible(one) == "?"]

    assert len(letters) > 40
    assert len(lacking) <= 0.001 * len(letters), "".join(lacking)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", [*NAMES.values(), TITLE, RECIPIENT.site, "Hall 2"])
def test_a_line_is_drawn_as_wide_as_it_is_reckoned(words, bold):
    boxes = _boxes(_scene_pdf(Words(text=words, x=200, y=50, size=20, colour="#000000", bold=bold)))
    left, right = min(box[0] for box in boxes), max(box[2] for box in boxes)

    # A letter's mark may stick out of the advance of its letter.
    assert right - left == pytest.approx(width(words, 20, bold), rel=0.02)
    assert (left + right) / 2 == pytest.approx(200, abs=2)


@pytest.mark.parametrize("anchor", list(Anchor))
def test_a_line_of_several_faces_stands_at_its_anchor(anchor):
    words = "Lab 厨房 ครัว 주방"
    boxes = _boxes(
        _scene_pdf(Words(text=words, x=200, y=50, size=12, colour="#000000", anchor=anchor))
    )
    left, right = min(box[0] for box in boxes), max(box[2] for box in boxes)
    place = {Anchor.START: left, Anchor.MIDDLE: (left + right) / 2, Anchor.END: right}[anchor]

    assert place == pytest.approx(200, abs=1)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", [*NAMES.values(), TITLE, RECIPIENT.site])
def test_a_paragraph_is_set_as_wide_as_it_is_reckoned(words, bold):
    paragraph = text(words, style(9, bold=bold))
    paragraph.wrap(1000, 1000)

    assert sum(paragraph.getActualLineWidths0()) == pytest.approx(width(words, 9, bold))


@given(st.text(alphabet="ab 1厨房室診リ복도ห้องน้ำญฐุ", min_size=1))
def test_the_pieces_of_a_line_are_the_line(line):
    drawn = "".join(piece for _, piece in runs(line))

    assert "".join(LETTER_OF.get(letter, letter) for letter in drawn) == line
    assert width(line, 10) >= 0


@given(st.text(alphabet="厨房室복도ห้องน้ำ ab", max_size=40), st.floats(10.0, 200.0))
def test_shortened_names_fit(line, most):
    assert width(shortened(legible(line), most, 8.0), 8.0) <= most


def test_names_wrap_inside_their_column():
    paragraph = text("ห้องประชุมใหญ่ชั้นสองอาคารผู้ป่วยนอก 消毒供应中心候诊区一楼", style(8))
    paragraph.wrap(60, 1000)

    assert len(paragraph.blPara.lines) > 2
    assert max(paragraph.getActualLineWidths0()) <= 60.001


def test_only_letters_that_the_typeface_lacks_change_face():
    assert [piece for face, piece in runs("厨房 Küche 2 ครัว") if face == "Estimator"] == [
        " Küche 2 "
    ]


@pytest.mark.parametrize("face", ["Estimator-Thai", "Estimator-Thai-Bold"])
def test_forms_are_those_of_their_letters_by_the_names_in_the_font(face):
    names = TTFont(BytesIO(font_bytes(face))).getBestCmap()

    assert all(
        names[ord(form)].startswith(f"uni{ord(letter):04X}.") for form, letter in LETTER_OF.items()
    )


@pytest.mark.parametrize(
    ("written", "as_drawn"),
    [
        ("ก่", "ก\uf70a"),  # a tone without a vowel comes down
        ("กี่", "กี่"),  # over a vowel it stays
        ("ป่", "ป\uf705"),  # beside a tall stem it moves to the left
        ("ปี่", "ป\uf702\uf713"),
        ("น้ำ", "น้ำ"),  # over the ring of this vowel it stays, too
        ("ญู", "\uf70fู"),  # the foot goes
        ("ฏุ", "ฏ\uf718"),  # or the vowel goes lower
    ],
)
def test_thai_marks_stand_where_their_neighbours_leave_place(written, as_drawn):
    assert formed(written) == as_drawn


def test_a_long_name_of_one_word_takes_two_lines_in_a_narrow_room():
    found = label(rectangle(34, 60), "消毒供应中心", ["4 m²"], 8.0)

    assert [line.text for line in found.lines] == ["消毒供", "应中心", "4 m²"]


def test_names_are_written_on_the_picture_they_were_read_from(plan):
    white = np.full((490, 580, 3), 255, np.uint8)
    made = []
    for name in ("厨房", "病房", "ครัว"):
        named = evolve(plan, rooms=tuple(evolve(room, name=name) for room in plan.rooms))
        made.append(np.asarray(Image.open(BytesIO(overlay_png(white, named)))))

    assert (made[0] != made[1]).any()
    assert (made[0] != made[2]).any()


def test_what_cannot_be_written_is_told_in_one_sentence(plan):
    named = evolve(plan, title="रसोई 1")
    told = unwritten(words_of(named, FIRM, RECIPIENT))

    assert told.startswith("Papers have no letters for “रसोई 1” and show ? there")
    assert unwritten(words_of(evolve(plan, title=TITLE), FIRM, RECIPIENT)) == ""
    assert unwritten(["अ", "आ", "इ", "ई", "अ"]).count("1 more") == 1
    assert not is_written("अ")
