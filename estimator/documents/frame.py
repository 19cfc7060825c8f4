"""Parts that papers share: a head over a rule, a banner, large figures, and a list."""

from collections.abc import Iterable, Sequence
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable, Table, TableStyle

from estimator.documents.palette import ACCENT, ALARM, DOUBT, HAIRLINE, INK, MUTED, PAPER
from estimator.documents.paper import Paper, content_width, style, text
from estimator.quantities import Units

_GROUNDS = {ACCENT: "#e6f1ee", DOUBT: "#faf1df", ALARM: "#f8e6e2"}


def over_rule(
    cells: Sequence[Sequence[Flowable] | Flowable | str],
    widths: Sequence[float],
    *,
    colour: str = ACCENT,
    aligned: str = "TOP",
    gap: float,
    **more: Any,
) -> Table:
    """Return what heads a page, side by side over a rule.

    Parameters
    ----------
    gap
        Space between the cells and the rule.
    """
    return Table(
        [list(cells)],
        colWidths=list(widths),
        style=TableStyle(
            [
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 0),
                ("BOTTOMPADDING", (0, 0), (-1, -1), gap),
                ("VALIGN", (0, 0), (-1, -1), aligned),
                ("LINEBELOW", (0, 0), (-1, -1), 1.2, HexColor(colour)),
            ]
        ),
        **more,
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


def figures(
    shown: Sequence[tuple[str, str]],
    paper: Paper | Units,
    *,
    size: float = 12.5,
    colour: str = ACCENT,
    ground: str = PAPER,
    **more: Any,
) -> Table:
    """Return large figures side by side, each with what it is."""
    cells = [
        [text(figure, style(size, bold=True, colour=colour)), text(what, style(7.2, colour=MUTED))]
        for figure, what in shown
    ]
    return Table(
        [cells],
        colWidths=[content_width(paper) / len(shown)] * len(shown),
        style=TableStyle(
            [
                ("BACKGROUND", (0, 0), (-1, -1), HexColor(ground)),
                ("LINEAFTER", (0, 0), (-2, -1), 0.5, HexColor(HAIRLINE)),
                ("LEFTPADDING", (0, 0), (-1, -1), 8),
                ("RIGHTPADDING", (0, 0), (-1, -1), 4),
                ("TOPPADDING", (0, 0), (-1, -1), 5),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 6),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ]
        ),
        **more,
    )


def bullets(
    sentences: Iterable[str],
    size: float,
    *,
    colour: str = INK,
    leading: float = 1.24,
    gap: float = 0.15,
) -> list[Flowable]:
    """Return sentences as a list.

    Parameters
    ----------
    leading, gap
        From line to line and after each sentence, as shares of the size.
    """
    look = style(size, colour=colour, leftIndent=8, leading=leading * size, spaceAfter=gap * size)
    look.bulletFontName, look.bulletFontSize = look.fontName, size
    paragraphs = [text(sentence, look) for sentence in sentences]
    for paragraph in paragraphs:
        paragraph.bulletText = "•"
    return list(paragraphs)
