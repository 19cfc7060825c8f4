"""What all printed papers share: typeface, styles, page frame, tables and drawings."""

import re
from collections.abc import Sequence
from enum import StrEnum
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.pagesizes import A4, letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    PageTemplate,
    Paragraph,
    Table,
    TableStyle,
)
from reportlab.platypus.doctemplate import LayoutError

from estimator.documents.faces import BOLD, REGULAR, register, runs
from estimator.documents.lettering import legible, plain, width
from estimator.documents.palette import ACCENT, HAIRLINE, INK, MUTED
from estimator.documents.scene import Anchor, Area, Scene, Stroke, Words, type_path
from estimator.errors import DocumentError
from estimator.quantities import Units

MARGIN = 13 * mm
_FOOT = 6 * mm
_FOOT_SIZE = 6.5
_GAP = 6 * mm
_MEASURE = re.compile(
    r"\d (?:m²|ft²|pi²|m|ft|pi|L|mL|US gal|gal US|gal|US fl oz|fl oz US|fl oz|g|kg|oz|lb|ppm|%"
    r"|h \d+ min|h|min|s)\b|\b[A-Z]{3} \d|N[°.]º? (?=\S)"
)


class Paper(StrEnum):
    """The size of paper."""

    A4 = "A4"
    LETTER = "Letter"


_JOINED = re.compile("[\u00a0\u202f]")


def usual_paper(units: Units) -> Paper:
    """Return Letter for readers of US units and A4 for all others."""
    return Paper.LETTER if units is Units.US else Paper.A4


def page_size(paper: Paper | Units) -> tuple[float, float]:
    """Return the sides of a paper, or of the usual one for readers of those units."""
    size = usual_paper(paper) if isinstance(paper, Units) else paper
    return letter if size is Paper.LETTER else A4


def content_width(paper: Paper | Units) -> float:
    """Return the width between the margins."""
    return page_size(paper)[0] - 2 * MARGIN


def style(
    size: float, *, bold: bool = False, colour: str = INK, right: bool = False, **more: Any
) -> ParagraphStyle:
    """Return a style of text."""
    register()
    settings = {
        "fontName": BOLD if bold else REGULAR,
        "fontSize": size,
        "leading": 1.32 * size,
        "textColor": HexColor(colour),
        "splitLongWords": True,
    }
    if right:
        settings["alignment"] = TA_RIGHT
    return ParagraphStyle(f"{size}{bold}{colour}", **{**settings, **more})


def text(words: str, look: ParagraphStyle) -> Paragraph:
    """Return a paragraph of words that are no markup, whatever they hold.

    A number stays on one line with its unit, and what a space joins that must not break.
    """
    written = "\u00a0".join(map(legible, _JOINED.split(words)))
    joined = _MEASURE.sub(lambda found: found[0].replace(" ", "\u00a0"), written)
    pieces = runs(joined, bold=look.fontName == BOLD)
    if len(pieces) == 1 and pieces[0][0] == look.fontName:
        return Paragraph(escape(pieces[0][1]), look)
    marked = (f'<font name="{face}">{escape(piece)}</font>' for face, piece in pieces)
    return Paragraph("".join(marked), look)


def heading(words: str, colour: str = ACCENT) -> Paragraph:
    """Return a heading of a part of the page."""
    return text(words, style(9.5, bold=True, colour=colour, spaceAfter=2.5, keepWithNext=True))


def table(
    head: Sequence[str],
    rows: Sequence[Sequence[str | Flowable]],
    widths: Sequence[float],
    *,
    numbers: Sequence[int] = (),
    size: float = 7.4,
    padding: float = 2.0,
    strong_last: bool = False,
    ink: str = INK,
    accent: str = ACCENT,
) -> Table:
    """Return a table under hairlines.

    Parameters
    ----------
    head
        Headings of the columns, or nothing.
    numbers
        Columns set flush right.
    padding
        Space above and below each line.
    strong_last
        Whether the last row is a sum.
    """

    def cell(words: str | Flowable, column: int, *, strong: bool, head: bool = False) -> Flowable:
        if isinstance(words, Flowable):
            return words
        colour = MUTED if head else ink
        look = style(
            0.92 * size if head else size,
            bold=strong,
            colour=colour,
            right=column in numbers,
            wordWrap=None,
        )
        return text(words, look)

    body = [
        [
            cell(words, column, strong=strong_last and at == len(rows) - 1)
            for column, words in enumerate(row)
        ]
        for at, row in enumerate(rows)
    ]
    top = [[cell(words, at, strong=False, head=True) for at, words in enumerate(head)]]
    top = top if head else []
    commands: list[tuple[Any, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 3),
        ("TOPPADDING", (0, 0), (-1, -1), 0.9 * padding),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.1 * padding),
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, HexColor(HAIRLINE)),
    ]
    if head:
        commands += [
            ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
            ("LINEBELOW", (0, 0), (-1, 0), 0.8, HexColor(accent)),
        ]
    return Table(
        [*top, *body],
        colWidths=list(widths),
        style=TableStyle(commands),
        repeatRows=len(top),
        hAlign="LEFT",
    )


def columns(
    left: Sequence[Flowable],
    right: Sequence[Flowable],
    paper: Paper | Units,
    *,
    share: float = 0.5,
) -> Table:
    """Return two columns side by side, the left one with a share of the width."""
    return Table(
        [[list(left), "", list(right)]],
        colWidths=[column_width(paper, share), _GAP, column_width(paper, 1 - share)],
        style=TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 0),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
            ]
        ),
        hAlign="LEFT",
    )


def content_height(paper: Paper | Units) -> float:
    """Return the height between the margins and above the foot."""
    return page_size(paper)[1] - 2 * MARGIN - _FOOT / 2


def column_width(paper: Paper | Units, share: float = 0.5) -> float:
    """Return the width of one of two columns that has a share of it."""
    return share * (content_width(paper) - _GAP)


class Drawing(Flowable):
    """A scene as vectors on the page."""

    def __init__(self, scene: Scene) -> None:
        super().__init__()
        register()
        self.scene = scene
        self.width, self.height = scene.width, scene.height
        self.hAlign = "LEFT"

    def wrap(self, *_available: float) -> tuple[float, float]:
        """Return the space it takes."""
        return self.width, self.height

    def draw(self) -> None:
        """Lay the marks down."""
        canvas: Canvas = self.canv
        canvas.setLineJoin(1)
        for mark in self.scene.marks:
            if isinstance(mark, Area):
                self._area(canvas, mark)
            elif isinstance(mark, Stroke):
                self._stroke(canvas, mark)
            else:
                self._words(canvas, mark)

    def _area(self, canvas: Canvas, mark: Area) -> None:
        red, green, blue = HexColor(mark.fill).rgb()
        canvas.setFillColor(Color(red, green, blue, alpha=mark.opacity))
        outline = canvas.beginPath()
        for ring in mark.rings:
            self._trace(outline, ring)
            outline.close()
        canvas.drawPath(outline, stroke=0, fill=1, fillMode=0)

    def _stroke(self, canvas: Canvas, mark: Stroke) -> None:
        canvas.setStrokeColor(HexColor(mark.colour))
        canvas.setLineWidth(mark.width)
        canvas.setDash([mark.dash, mark.dash] if mark.dash else [])
        line = canvas.beginPath()
        self._trace(line, mark.points)
        canvas.drawPath(line, stroke=1, fill=0)

    def _words(self, canvas: Canvas, mark: Words) -> None:
        canvas.setFillColor(HexColor(mark.colour))
        _line(canvas, mark.x, self.height - mark.y, mark.text, mark.size, mark.anchor, mark.bold)

    def _trace(self, outline: Any, points: type_path) -> None:
        for at, (x, y) in enumerate(points):
            (outline.lineTo if at else outline.moveTo)(x, self.height - y)


def _line(
    canvas: Canvas, x: float, y: float, words: str, size: float, anchor: Anchor, bold: bool = False
) -> None:
    """Draw one line, each piece in the face that has its letters."""
    share = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[anchor]
    line = canvas.beginText(x - share * width(words, size, bold), y)
    for face, piece in runs(words, bold):
        line.setFont(face, size)
        line.textOut(piece)
    canvas.drawText(line)


def printed(
    story: Sequence[Flowable],
    paper: Paper | Units,
    *,
    title: str,
    subject: str,
    foot: str,
    author: str = "",
    page: str = "Page {number}",
    language: str = "en",
) -> tuple[bytes, int]:
    """Return the pages as PDF, the same bytes for the same story, and how many there are.

    Parameters
    ----------
    page
        How pages are numbered.

    Raises
    ------
    DocumentError
        When a part that cannot be parted is taller than a page.
    """
    register()
    written = BytesIO()
    size = page_size(paper)
    document = BaseDocTemplate(
        written,
        pagesize=size,
        invariant=1,
        title=plain(title),
        subject=subject,
        author=plain(author),
        lang=language,
        creator="Floor-plan surface estimator",
        allowSplitting=1,
    )
    frame = Frame(
        MARGIN,
        MARGIN + _FOOT / 2,
        size[0] - 2 * MARGIN,
        size[1] - 2 * MARGIN - _FOOT / 2,
        leftPadding=0,
        rightPadding=0,
        topPadding=0,
        id="page",
        bottomPadding=0,
    )

    def footer(canvas: Canvas, pages: BaseDocTemplate) -> None:
        canvas.saveState()
        canvas.setFillColor(HexColor(MUTED))
        base = MARGIN - 4 * mm
        number = page.format(number=pages.page)
        _line(canvas, MARGIN, base, legible(foot), _FOOT_SIZE, Anchor.START)
        _line(canvas, size[0] - MARGIN, base, number, _FOOT_SIZE, Anchor.END)
        canvas.restoreState()

    document.addPageTemplates(PageTemplate(id="page", frames=[frame], onPage=footer))
    try:
        document.build(list(story))
    except LayoutError as error:
        raise DocumentError(title, "a part of it is taller than a page", "shorten it") from error
    return written.getvalue(), document.page
