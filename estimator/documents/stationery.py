"""A firm's stationery: its letterhead and colours on a paper for one reader."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from io import BytesIO
from typing import Any

from attrs import frozen
from PIL import Image, ImageOps
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, Paragraph, Table, TableStyle
from reportlab.platypus import Image as Picture

from estimator.documents.frame import bullets, figures, over_rule
from estimator.documents.lettering import width
from estimator.documents.palette import MUTED
from estimator.documents.paper import (
    Paper,
    column_width,
    content_width,
    heading,
    printed,
    style,
    table,
    text,
)
from estimator.documents.reader import Reader
from estimator.quote.firm import Firm
from estimator.quote.recipient import Recipient

BODY = 7.8
"""Size of text, in points."""

_LOGO = (130.0, 40.0)
_ENDLESS = 10_000.0
_LONGEST_NAME, _LONGEST_LINE, _MOST_LINES = 240, 120, 7
"""Characters and lines of an address, so that it leaves the page to the offer."""

_LOGO_DOTS = 10
"""Dots of a logo to a point: 720 to the inch."""


@frozen(kw_only=True)
class Stationery:
    """What every part of a firm's paper is set with."""

    firm: Firm
    paper: Paper
    reader: Reader

    @property
    def wide(self) -> float:
        """The width between the margins."""
        return content_width(self.paper)

    @property
    def half(self) -> float:
        """The width of one of two columns."""
        return column_width(self.paper)

    def say(self, key: str, **values: object) -> str:
        """Return words of a quote."""
        return self.reader.say("quote", key, **values)

    def text(self, words: str, size: float = BODY, *, colour: str = "", **more: Any) -> Paragraph:
        """Return a paragraph."""
        return text(words, style(size, colour=colour or self.firm.ink, **more))

    def heading(self, words: str) -> Paragraph:
        """Return a heading of a part of the page."""
        return heading(words, self.firm.accent)

    def table(
        self,
        head: Sequence[str],
        rows: Sequence[Sequence[str | Flowable]],
        widths: Sequence[float],
        **more: Any,
    ) -> Table:
        """Return a table under hairlines."""
        ink, accent = self.firm.ink, self.firm.accent
        return table(head, rows, widths, ink=ink, accent=accent, **more)

    def bullets(self, sentences: Iterable[str], size: float) -> list[Flowable]:
        """Return sentences as a list."""
        return bullets(sentences, size, colour=self.firm.ink, leading=1.26, gap=0.2)

    def letterhead(self) -> list[Flowable]:
        """Return logo, name and address over a rule; nothing for a firm without a name."""
        firm = self.firm
        if not firm.name:
            return []
        logo = _logo(firm.logo) if firm.logo else None
        mark = logo.drawWidth + 10 if logo else 0.0
        aside = 0.46 * self.wide
        size = next(
            (one for one in (15.0, 13.0, 11.0) if width(firm.name, one, True) < aside - mark), 10.0
        )
        name = [self.text(firm.name, size, bold=True)]
        if firm.registration:
            name.append(self.text(firm.registration, 6.6, colour=MUTED))
        lines = [
            self.text(line, 7.2, colour=MUTED, right=True)
            for line in (", ".join(firm.address), " · ".join(firm.contact))
            if line
        ]
        return [
            over_rule(
                [logo or "", name, lines],
                [mark, self.wide - mark - aside, aside],
                colour=firm.accent,
                aligned="MIDDLE",
                gap=7,
                spaceAfter=9,
            )
        ]

    def numbered(self, recipient: Recipient | None) -> str:
        """Return what a quote is called between firm and client; nothing where nobody is named."""
        if recipient is None:
            return ""
        if not recipient.version:
            return self.say("draft", number=recipient.number)
        return self.say("numbered", number=recipient.number, version=recipient.version)

    def titled(self, title: str, recipient: Recipient | None) -> str:
        """Return what a quote is titled: where it has no title of its own, by its site."""
        return title or (recipient.site if recipient else "") or self.say("untitled")

    def addressed(self, recipient: Recipient | None) -> list[Flowable]:
        """Return the client and the site side by side, each with an address below its name."""
        if recipient is None:
            return []
        blocks = [
            [
                self.text(self.say(key), 7.2, colour=MUTED, spaceAfter=1),
                self.text(_brief(name, _LONGEST_NAME), 9.5, bold=True),
                *(self.text(_brief(line, _LONGEST_LINE), 8.2) for line in lines[:_MOST_LINES]),
            ]
            for key, name, lines in (
                ("for", recipient.client, recipient.address),
                ("at", recipient.site, recipient.place),
            )
            if name
        ]
        if not blocks:
            return []
        cells = [blocks[0], blocks[1] if len(blocks) > 1 else ""]
        return [
            Table(
                [cells],
                colWidths=[0.5 * self.wide] * 2,
                style=TableStyle(
                    [
                        ("LEFTPADDING", (0, 0), (-1, -1), 0),
                        ("RIGHTPADDING", (0, 0), (-1, -1), 14),
                        ("TOPPADDING", (0, 0), (-1, -1), 0),
                        ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
                        ("VALIGN", (0, 0), (-1, -1), "TOP"),
                    ]
                ),
                spaceAfter=11,
            )
        ]

    def figures(self, shown: Sequence[tuple[str, str]]) -> Flowable:
        """Return large figures side by side, each with what it is."""
        room = self.wide / len(shown) - 12
        longest = max(width(figure, 1.0, True) for figure, _ in shown)
        size = min(13.0, room / longest)
        accent = self.firm.accent
        return figures(
            shown, self.paper, size=size, colour=accent, ground=tinted(accent), spaceAfter=8
        )

    def printed(self, story: Sequence[Flowable], *, title: str, foot: str) -> tuple[bytes, int]:
        """Return the pages as PDF, the same bytes for the same story, and how many there are."""
        return printed(
            story,
            self.paper,
            title=title,
            subject=self.say("subject"),
            foot=" · ".join(filter(None, (self.firm.name, foot))),
            author=self.firm.name,
            page=self.say("page", number="{number}"),
            language=self.reader.language.value,
        )


def _brief(words: str, most: int) -> str:
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def height_of(flowables: Iterable[Flowable], wide: float) -> float:
    """Return how much of a page flowables take below each other."""
    canvas = Canvas(BytesIO())
    return sum(
        flowable.wrapOn(canvas, wide, _ENDLESS)[1] + flowable.getSpaceAfter()
        for flowable in flowables
    )


def tinted(colour: str) -> str:
    """Return a colour so light that dark text is read on it.

    >>> tinted("#0f5c5c")
    '#eef4f4'
    """
    parts = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return "#" + "".join(f"{round(255 - 0.07 * (255 - part)):02x}" for part in parts)


def _logo(data: bytes) -> Picture:
    """Return a logo in its proportions, within the space a letterhead has for it."""
    png, wide, high = _shrunk(data)
    scale = min(_LOGO[0] / wide, _LOGO[1] / high)
    return Picture(BytesIO(png), wide * scale, high * scale, mask="auto")


@lru_cache(maxsize=16)
def _shrunk(data: bytes) -> tuple[bytes, int, int]:
    """Return a logo upright, with no more dots than print shows, and its sides in dots."""
    with Image.open(BytesIO(data)) as opened:
        picture = ImageOps.exif_transpose(opened).convert("RGBA")
    picture.thumbnail((round(_LOGO[0] * _LOGO_DOTS), round(_LOGO[1] * _LOGO_DOTS)))
    written = BytesIO()
    picture.save(written, "PNG")
    return written.getvalue(), *picture.size
