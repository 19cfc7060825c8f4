"""Parts that open every paper: head, banner and key figures."""

from collections.abc import Iterable, Iterator, Sequence

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable, Table, TableStyle

from estimator.documents.palette import ACCENT, ALARM, DOUBT, HAIRLINE, MUTED, PAPER
from estimator.documents.paper import Paper, content_width, style, text
from estimator.documents.wording import day_words
from estimator.quantities import Units
from estimator.quote.quote import Quote

_GROUNDS = {ACCENT: "#e6f1ee", DOUBT: "#faf1df", ALARM: "#f8e6e2"}


def page_head(kind: str, quote: Quote, units: Units) -> Iterator[Flowable]:
    """Yield what the paper is, for which site and of which day."""
    wide = content_width(units)
    left = [
        text(kind, style(8, bold=True, colour=ACCENT)),
        text(quote.title or "Untitled site", style(17, bold=True)),
        text("Surface disinfection by electrostatic spraying", style(8.5, colour=MUTED)),
    ]
    right = [text(day_words(quote.date), style(9, right=True))]
    yield Table(
        [[left, right]],
        colWidths=[0.76 * wide, 0.24 * wide],
        style=TableStyle(
            [
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 0),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 6),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LINEBELOW", (0, 0), (-1, -1), 1.2, HexColor(ACCENT)),
            ]
        ),
        spaceAfter=6,
    )


def banner(words: str, paper: Paper | Units, *, colour: str = DOUBT) -> Flowable:
    """Return a sentence nobody should miss."""
    return Table(
        [[text(words, style(7.6))]],
        colWidths=[content_width(paper)],
        style=TableStyle(
            [
                ("BACKGROUND", (0, 0), (-1, -1), HexColor(_GROUNDS[colour])),
                ("LINEBEFORE", (0, 0), (0, -1), 3, HexColor(colour)),
                ("LEFTPADDING", (0, 0), (-1, -1), 8),
                ("TOPPADDING", (0, 0), (-1, -1), 4),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 5),
            ]
        ),
        spaceAfter=6,
    )


def figures(shown: Sequence[tuple[str, str]], units: Units) -> Flowable:
    """Return large figures side by side, each with what it is."""
    cells = [
        [text(figure, style(12.5, bold=True, colour=ACCENT)), text(what, style(7.2, colour=MUTED))]
        for figure, what in shown
    ]
    return Table(
        [cells],
        colWidths=[content_width(units) / len(shown)] * len(shown),
        style=TableStyle(
            [
                ("BACKGROUND", (0, 0), (-1, -1), HexColor(PAPER)),
                ("LINEAFTER", (0, 0), (-2, -1), 0.5, HexColor(HAIRLINE)),
                ("LEFTPADDING", (0, 0), (-1, -1), 8),
                ("RIGHTPADDING", (0, 0), (-1, -1), 4),
                ("TOPPADDING", (0, 0), (-1, -1), 5),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 6),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ]
        ),
    )


def bullets(sentences: Iterable[str], size: float) -> list[Flowable]:
    """Return sentences as a list."""
    look = style(size, leftIndent=8, leading=1.24 * size, spaceAfter=0.15 * size)
    look.bulletFontName, look.bulletFontSize = look.fontName, size
    paragraphs = [text(sentence, look) for sentence in sentences]
    for paragraph in paragraphs:
        paragraph.bulletText = "•"
    return list(paragraphs)
