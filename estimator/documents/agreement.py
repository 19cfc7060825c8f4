"""What a quote rests on and binds to: preparation, return, doubts, cautions, terms, acceptance."""

from collections.abc import Iterator

from attrs import frozen
from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable, KeepTogether, Spacer, Table, TableStyle

from estimator.documents.offered_price import payable
from estimator.documents.palette import MUTED
from estimator.documents.paper import content_height
from estimator.documents.phrasebook import french
from estimator.documents.stationery import BODY, Stationery, height_of
from estimator.documents.two_columns import Block, balanced_height, two_columns
from estimator.plan.doubt import Doubt
from estimator.quantities.language import Language
from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision

_BEFORE = ("clean-first", "airways", "remove-or-cover", "electrics", "detectors")
_AFTER = ("nobody-in-the-area", "air-clearing", "food-surfaces")
"""Slugs of the cautions that a client must act on before and after the visit."""

_BOX = "☐"
_SIZES = (8.6, 8.2, 7.8, 7.4, 7.0, 6.6)
"""Sizes of text, in points, tried until all stands on one page."""


@frozen(kw_only=True, eq=False)
class Agreement:
    """All of a quote that stands behind its offer, on a firm's stationery."""

    sheet: Stationery
    quote: Quote

    def parts(self) -> list[Flowable]:
        """Return what is to be known in two columns from a new page on, and the acceptance."""
        accepted = [Spacer(1, 10), *self._acceptance(), Spacer(1, 6), self._provenance()]
        page = content_height(self.sheet.paper) - height_of(accepted, self.sheet.wide)
        said = self._said()
        for size in _SIZES:
            blocks = [block for key in said for block in self._list(key, said[key], size)]
            if balanced_height(blocks, self.sheet.paper) < page:
                break
        return [*two_columns(blocks, self.sheet.paper), KeepTogether(accepted)]

    def _said(self) -> dict[str, list[str]]:
        """Return the sentences under each heading."""
        return {
            "before": [*self._asked(), *self._cautions(_BEFORE)],
            "after": [*self._back(), *self._cautions(_AFTER)],
            "weigh": self._rest(of_the_quote=True),
            "careful": self._rest(of_the_quote=False),
            "assumed": self._assumed(),
            "terms": self._terms(),
        }

    def _list(self, key: str, sentences: list[str], size: float) -> Iterator[Block]:
        """Yield a list whose heading stays with its first sentence."""
        if sentences:
            first, *others = self.sheet.bullets(sentences, size)
            yield self.sheet.heading(self.sheet.say(key)), first
            yield from ((sentence,) for sentence in others)
            yield (Spacer(1, size),)

    def _asked(self) -> list[str]:
        return [self.sheet.say(key) for key in ("before_clear", "before_access", "before_empty")]

    def _cautions(self, slugs: tuple[str, ...]) -> list[str]:
        found = {one.slug: self.sheet.reader.caution(one) for one in self.quote.cautions}
        return [found[slug] for slug in slugs if slug in found]

    def _rest(self, *, of_the_quote: bool) -> list[str]:
        told = [
            self.sheet.reader.caution(one)
            for one in self.quote.cautions
            if one.slug not in (*_BEFORE, *_AFTER) and (one.where is Decision.QUOTE) is of_the_quote
        ]
        return list(dict.fromkeys(told))

    def _back(self) -> list[str]:
        """Return when rooms may be used again by the estimate, and what prevails over it."""
        sheet, reader = self.sheet, self.sheet.reader
        back = sorted(self.quote.timetable.reentry, key=lambda room: room.at)
        if not back:
            return []
        rooms = {room.room: room for room in self.quote.schedule.rooms}
        first, last = back[0], back[-1]
        said = [
            sheet.say(
                "reentry" if len(back) > 1 else "reentry_one",
                first=reader.time(first.at),
                last=reader.time(last.at),
                room=reader.room(rooms[last.room]) if last.room in rooms else last.room,
            )
        ]
        reasons = dict.fromkeys(filter(None, (reader.reason(room.because) for room in back)))
        if reasons:
            said.append(sheet.say("decides", reasons=reader.listed(list(reasons))))
        return [" ".join((*said, sheet.say("label_prevails")))]

    def _assumed(self) -> list[str]:
        """Return the assumptions, the same one about several rooms said once."""
        rooms = {room.room: room for room in self.quote.schedule.rooms}
        names = {room.name for room in rooms.values() if room.name}
        alike: dict[str, list[Doubt]] = {}
        for doubt in self.quote.assumptions:
            name = rooms[doubt.room].name if doubt.room in rooms else ""
            same = doubt.says.replace(name, "\0") if name else doubt.says
            alike.setdefault(same, []).append(doubt)
        said = []
        for doubts in alike.values():
            words = self.sheet.reader.doubt(doubts[0], names)
            others = dict.fromkeys(
                self.sheet.reader.room(rooms[doubt.room])
                for doubt in doubts[1:]
                if doubt.room in rooms
            )
            if others:
                listed = self.sheet.reader.listed(list(others))
                words = self.sheet.reader.say(
                    "doubts", "likewise", says=words.rstrip("."), rooms=listed
                )
            said.append(words)
        said = list(dict.fromkeys(said))
        return [self.sheet.say("assumed_lead"), *said] if said else []

    def _terms(self) -> list[str]:
        language = self.sheet.reader.language
        said = list(self.sheet.firm.terms.said(language.value))
        return list(map(french, said)) if language is Language.FR else said

    def _acceptance(self) -> Iterator[Flowable]:
        sheet, reader, wide = self.sheet, self.sheet.reader, self.sheet.wide
        yield sheet.heading(sheet.say("acceptance"))
        yield sheet.text(sheet.say("accept"), BODY)
        if len(self.quote.options) > 1:
            yield sheet.text(sheet.say("accept_option"), BODY, spaceBefore=3)
            for option in self.quote.options:
                total = payable(option.price, option.range, self.quote.terms, reader)
                choice = sheet.say("choice", option=reader.option(option.name), total=total)
                yield sheet.text(f"{_BOX}\u00a0 {choice}", BODY, leftIndent=8)
        labels = [
            sheet.text(sheet.say(key), 7, colour=MUTED) for key in ("name", "signature", "day")
        ]
        yield Table(
            [[""] * 5, [labels[0], "", labels[1], "", labels[2]]],
            colWidths=[0.36 * wide, 0.03 * wide, 0.36 * wide, 0.03 * wide, 0.22 * wide],
            rowHeights=[26, None],
            style=TableStyle(
                [
                    *(
                        ("LINEBELOW", (column, 0), (column, 0), 0.6, HexColor(MUTED))
                        for column in (0, 2, 4)
                    ),
                    ("LEFTPADDING", (0, 0), (-1, -1), 0),
                    ("TOPPADDING", (0, 0), (-1, -1), 1),
                    ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
                ]
            ),
            hAlign="LEFT",
        )

    def _provenance(self) -> Flowable:
        made = self.quote.provenance
        said = self.sheet.say(
            "provenance",
            plan=made.plan_digest,
            book=made.book_digest,
            job=made.job_digest,
            seed=made.seed,
            version=made.version,
        )
        return self.sheet.text(said, 5.8, colour=MUTED)
